/** Asks every question of a card on every path, for every sort of machine on which the card differs. */
import type { Card, Condition, Item, Rule } from '../../shared/card.ts';
import { type Cancellation, never } from '../../shared/cancel.ts';
import { zero } from '../../shared/exact.ts';
import { buildFlow } from '../flow/build.ts';
import { configurations } from '../flow/configurations.ts';
import type { Flow } from '../flow/graph.ts';
import { Collector, placeKey } from './collector.ts';
import { explore } from './explore.ts';
import type { BranchFact, Break, Proof, ProofOptions } from './facts.ts';
import type { Question } from './question.ts';
import { branchQuestions } from './questions/branches.ts';
import type { Context } from './questions/context.ts';
import { hazardQuestions } from './questions/hazards.ts';
import { callQuestion, needQuestion, putBackQuestion, type SetRecord } from './questions/items.ts';
import { ruleQuestion } from './questions/rules.ts';
import { FlowIndex, Slice } from './slice.ts';
import { startOf, startState } from './start.ts';
import { endlessClosings, firstUnreached, liveMoves, stepsReached } from './structure.ts';
import { pathTo } from './witness.ts';

/** What the configurations of a card have found together. */
interface Findings {
  readonly collector: Collector;
  readonly sets: Map<string, SetRecord>;
  readonly branches: Map<string, { fact: BranchFact; passes: boolean; fails: boolean }>;
  readonly drawn: Set<string>;
  readonly reached: Set<string>;
  explored: number;
  unknownJumps: boolean;
}

export function prove(card: Card, options: ProofOptions & { readonly cancellation?: Cancellation }): Proof {
  const found: Findings = {
    collector: new Collector(),
    sets: new Map(),
    branches: new Map(),
    drawn: new Set(),
    reached: new Set(),
    explored: 0,
    unknownJumps: false,
  };
  const sorts = configurations(card);
  for (const configuration of sorts) {
    found.collector.begin(configuration.words);
    proveFlow(card, buildFlow(card, { includes: configuration.includes }), found, options);
  }
  return gather(card, found, sorts.map(({ words }) => words));
}

function proveFlow(card: Card, flow: Flow, found: Findings, options: ProofOptions & { cancellation?: Cancellation }): void {
  const index = new FlowIndex(flow);
  const start = startOf(card);
  const conditions = conditionsOf(card);
  let slice: Slice | undefined;
  const context: Context = {
    card,
    flow,
    collector: found.collector,
    start,
    path: (look, about, unmet) => pathTo(look.node, slice as Slice, about, unmet, card.place),
  };
  const taken = new Set<number>();
  for (const question of [...branchQuestions(index, taken), ...questionsOf(card, found, context)]) {
    slice = new Slice(index, question, conditions);
    const state = startState(slice, start, (item) => assumedAway(card, item));
    const { nodes } = explore(slice, state, { stateBound: options.stateBound, cancellation: options.cancellation ?? never });
    found.explored += nodes.length;
  }
  recordBranches(flow, taken, found);
  recordStructure(card, index, taken, found);
}

function assumedAway(card: Card, item: Item): boolean {
  return card.assumes.some((assumed) => assumed.item === item && item.normally !== undefined && assumed.state !== item.normally);
}

function conditionsOf(card: Card): Condition[] {
  const { rules, hazards, supplies, items } = card.equipment;
  return [
    ...rules.flatMap((rule) => (rule.condition ? [rule.condition, rule.require] : [rule.require])),
    ...hazards.flatMap((hazard) => (hazard.protect ? [hazard.condition, hazard.protect] : [hazard.condition])),
    ...supplies.flatMap((supply) => [...supply.sources, ...supply.links].flatMap(({ when }) => (when ? [when] : []))),
    ...items.flatMap((item) => item.may.flatMap(({ when }) => (when ? [when] : []))),
  ];
}

function questionsOf(card: Card, found: Findings, context: Context): Question[] {
  const { rules, hazards, items } = card.equipment;
  const changed = new Set(context.flow.moves.flatMap(({ happening }) => (happening.type === 'set' ? [happening.item] : [])));
  for (const { item } of card.assumes) if (assumedAway(card, item)) changed.add(item);
  const calls = new Set(context.flow.moves.flatMap(({ happening }) => (happening.type === 'call' ? [happening.assumes] : [])));
  return [
    ...rules.map((rule: Rule) => ruleQuestion(rule, context)),
    ...hazards.flatMap((hazard) => hazardQuestions(hazard, context)),
    ...items.flatMap((item) => item.needs.map((need) => needQuestion(item, need, context))),
    ...[...changed].map((item) =>
      putBackQuestion(
        item,
        card.leaves.find((leaves) => leaves.item === item),
        card.assumes.find((assumed) => assumed.item === item),
        found.sets,
        context,
      ),
    ),
    ...[...calls].map((assumes) => callQuestion(assumes, context)),
  ];
}

function recordBranches(flow: Flow, taken: ReadonlySet<number>, found: Findings): void {
  flow.moves.forEach((move, index) => {
    if (!move.branch) return;
    const { statement, form, passes } = move.branch;
    const key = placeKey(statement.place);
    const known = found.branches.get(key) ?? {
      fact: { statement, place: move.place, form, passes: false, fails: false, path: [] },
      passes: false,
      fails: false,
    };
    if (taken.has(index)) known[passes ? 'passes' : 'fails'] = true;
    found.branches.set(key, known);
  });
}

function recordStructure(card: Card, index: FlowIndex, taken: ReadonlySet<number>, found: Findings): void {
  const { flow } = index;
  found.unknownJumps ||= flow.unknownJumps;
  const { reached, live } = liveMoves(flow, taken);
  const steps = stepsReached(flow, live);
  for (const key of steps.drawn) found.drawn.add(key);
  for (const key of steps.reached) found.reached.add(key);
  for (const { place } of endlessClosings(flow, reached, live, index.order)) {
    found.collector.add('endless', placeKey(place), (): Break => ({ place, path: [], blended: false }));
  }
}

function gather(card: Card, found: Findings, words: readonly string[]): Proof {
  const { collector } = found;
  const plain = { path: [], blended: false };
  const unreached = found.unknownJumps ? [] : firstUnreached(card, found.drawn, found.reached);
  return {
    rules: collector.take('rules'),
    hazards: collector.take('hazards'),
    unprotected: collector.take('unprotected'),
    leftChanged: collector.take('leftChanged'),
    unsafeStops: firstOfEachHazard(collector.take('unsafeStops')),
    notFed: collector.take('notFed'),
    notAssumed: collector.take('notAssumed'),
    duties: [],
    branches: [...found.branches.values()].map(({ fact, passes, fails }) => ({ ...fact, passes, fails })),
    unreachable: unreached.map((step) => ({ ...plain, place: step.head, step })),
    endless: found.unknownJumps ? [] : collector.take('endless'),
    noChange: [...found.sets.values()].filter((record) => record.always).map(({ item, state, place }) => ({ ...plain, place, item, state })),
    doses: [],
    time: { least: zero },
    timePerRole: [],
    reliances: [],
    restReliances: [],
    statesAt: () => [],
    configurations: words,
    explored: found.explored,
  };
}

/** At most one for each hazard: the first place in the text. */
function firstOfEachHazard(stops: Proof['unsafeStops']): Proof['unsafeStops'] {
  const first = new Map<number, Proof['unsafeStops'][number]>();
  for (const stop of stops) {
    const known = first.get(stop.hazard.id);
    if (!known || stop.place.start < known.place.start) first.set(stop.hazard.id, stop);
  }
  return [...first.values()];
}
