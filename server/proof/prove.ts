/** Asks every question of a card on every path, for every sort of machine on which the card differs. */

import type { Card, Condition, Item, Role, Step } from '../../shared/card.ts';
import { larger } from '../../shared/exact.ts';
import { finish, type InParts, Once } from '../../shared/parts.ts';
import { buildFlow } from '../flow/build.ts';
import { type Configuration, machinesInParts, machinesOf } from '../flow/configurations.ts';
import type { Flow, Move } from '../flow/graph.ts';
import { either, type Ticks } from '../flow/time.ts';
import { checksReliedOn } from './checks-relied-on.ts';
import { Collector, placeKey } from './collector.ts';
import { type Asked, Asker, assumedAway, conditionsOf } from './exploring/ask.ts';
import { startOf } from './exploring/start.ts';
import type {
  BranchFact,
  Break,
  CardTime,
  ItemStates,
  Proof,
  ProofOptions,
  Reliance,
  RestReliance,
  StatesAt,
} from './facts.ts';
import { bitsOf } from './meaning/state.ts';
import { branchQuestions, noteFreeMoves } from './questions/branches.ts';
import type { Context } from './questions/context.ts';
import { hazardQuestions } from './questions/hazards.ts';
import { callQuestion, needQuestion, putBackQuestion, type SetRecords } from './questions/items.ts';
import { knownWays } from './questions/known-ways.ts';
import { joinParts, ruleQuestions } from './questions/rules.ts';
import {
  type Drawn,
  endlessClosings,
  firstUnreached,
  noteWay,
  stepsReached,
  stepsWrittenBehind,
  type Walked,
  walkQuestion,
} from './questions/structure.ts';
import { relianceOn } from './reliance.ts';
import { FlowIndex } from './slicing/flow-index.ts';
import type { Question } from './slicing/question.ts';
import { statesAtPlaces } from './states-at.ts';
import { proveDoses } from './time/doses.ts';
import { cardTime, proveDuties, timeOfCard, timeOfRole } from './time/timing.ts';

/** What the configurations of a card have found together. */
interface Findings extends SetRecords {
  readonly collector: Collector;
  readonly branches: Map<string, { fact: BranchFact; passes: boolean; fails: boolean }>;
  readonly drawn: Set<Step>;
  readonly reached: Set<Step>;
  readonly relyingOnRest: Set<Item>;
  readonly proved: Proved[];
  explored: number;
  unknownJumps: boolean;
}

/** One configuration after its questions were asked, kept for what is worked out only when somebody wants it. */
interface Proved {
  readonly configuration: Configuration;
  readonly index: FlowIndex;
  /** For each safety question the items whose states at the start it hangs on. */
  readonly hanging: readonly ReadonlySet<Item>[];
}

/** Proves a card. Reliances, times and states at places are worked out when first asked for. */
export function prove(card: Card, options: ProofOptions): Proof {
  return finish(proveInParts(card, options));
}

/** As `prove`, some places of an exploration at a time. */
export function* proveInParts(card: Card, options: ProofOptions): InParts<Proof> {
  const found: Findings = {
    collector: new Collector(),
    sets: new Map(),
    atFinish: new Map(),
    branches: new Map(),
    drawn: new Set(),
    reached: new Set(),
    relyingOnRest: new Set(),
    proved: [],
    explored: 0,
    unknownJumps: false,
  };
  for (const configuration of (yield* machinesInParts(card)).sorts) {
    found.collector.begin(configuration.machines);
    yield* proveConfiguration(card, configuration, found, options);
  }
  yield;
  return gather(card, found, options);
}

function* proveConfiguration(
  card: Card,
  configuration: Configuration,
  found: Findings,
  options: ProofOptions,
): InParts<void> {
  const flow = buildFlow(card, { includes: configuration.includes });
  yield;
  const index = new FlowIndex(flow, conditionsOf(card));
  yield;
  const start = startOf(card);
  const asker = new Asker(card, index, start, options);
  const context: Context = { card, flow, collector: found.collector, start, path: asker.path, lostBy: asker.lostBy };
  const branches = { taken: new Set<number>(), refused: new Set<number>() };
  const ask = function* (question: Question): InParts<Asked> {
    const asked = yield* asker.ask(question);
    found.explored += asked.exploration.nodes.length;
    return asked;
  };
  for (const question of branchQuestions(index, branches)) {
    const { exploration } = yield* ask(question);
    noteFreeMoves(index, question, branches, exploration.nodes);
    yield;
  }
  const hanging: ReturnType<Asked['slice']['itemsLiveAtStart']>[] = [];
  for (const question of safetyQuestions(context)) {
    const { slice } = yield* ask(question);
    hanging.push(slice.itemsLiveAtStart());
    yield;
  }
  for (const question of tidinessQuestions(found, context)) {
    yield* ask(question);
    yield;
  }
  const timing = { card, configuration, start, index, ways: knownWays(index, branches), ...options };
  const duties = yield* proveDuties(timing, found.collector);
  for (const item of duties.relying) found.relyingOnRest.add(item);
  found.explored += duties.explored + (yield* proveDoses(timing, found.collector));
  yield;
  recordBranches(flow, branches.taken, found);
  found.explored += yield* recordStructure(asker, found);
  found.proved.push({ configuration, index, hanging });
}

function safetyQuestions(context: Context): Question[] {
  const { rules, hazards, items } = context.card.equipment;
  return [
    ...rules.flatMap((rule) => ruleQuestions(rule, context)),
    ...hazards.flatMap((hazard) => hazardQuestions(hazard, context)),
    ...items.flatMap((item) => item.needs.map((need) => needQuestion(item, need, context))),
  ];
}

function tidinessQuestions(found: Findings, context: Context): Question[] {
  const { card, flow } = context;
  // A run ends by itself, unless another lane finishes the card meanwhile.
  const lasts = ({ happening, lane }: Move) => happening.type === 'set' || (happening.type === 'begin' && lane);
  const changed = new Set(
    flow.moves.flatMap((move) => ('item' in move.happening && lasts(move) ? [move.happening.item] : [])),
  );
  for (const { item } of card.assumes) if (assumedAway(card, item)) changed.add(item);
  const calls = new Set(flow.moves.flatMap(({ happening }) => (happening.type === 'call' ? [happening.assumes] : [])));
  const of = (item: Item) => ({
    leaves: card.leaves.find((leaves) => leaves.item === item),
    assumed: card.assumes.find((assumed) => assumed.item === item),
  });
  return [
    ...[...changed].map((item) => putBackQuestion(item, of(item).leaves, of(item).assumed, found, context)),
    ...[...calls].map((assumes) => callQuestion(assumes, context)),
  ];
}

function recordBranches(flow: Flow, taken: ReadonlySet<number>, found: Findings): void {
  flow.moves.forEach((move, index) => {
    if (!move.branch) return;
    const { statement, form, passes } = move.branch;
    const key = placeKey(statement.place);
    const known = found.branches.get(key) ?? {
      fact: { statement, place: move.place, form, passes: false, fails: false },
      passes: false,
      fails: false,
    };
    if (taken.has(index)) known[passes ? 'passes' : 'fails'] = true;
    found.branches.set(key, known);
  });
}

function* recordStructure(asker: Asker, found: Findings): InParts<number> {
  const { flow } = asker.index;
  const walked: Walked = { taken: new Set(), into: new Map(), ends: new Set(), closings: [] };
  const { exploration } = yield* asker.ask(walkQuestion(walked), (from, to) => noteWay(walked, from, to));
  found.unknownJumps ||= flow.unknownJumps;
  yield;
  for (const step of flow.steps) found.drawn.add(step);
  for (const step of stepsReached(flow, walked.taken)) found.reached.add(step);
  yield;
  for (const { place } of endlessClosings(walked)) {
    found.collector.add('endless', placeKey(place), (): Break => ({ place, path: [], blended: false }));
  }
  return exploration.nodes.length;
}

function gather(card: Card, found: Findings, options: ProofOptions): Proof {
  const { collector, proved } = found;
  const plain = { path: [], blended: false };
  const unreached = found.unknownJumps ? [] : firstUnreached(card, drawnBy(card, found));
  const later = lazily({
    reliances: () => reliances(card, proved, options),
    time: () => timeOverAll(proved, (configuration) => timeOfCard(card, configuration)),
    timePerRole: () => timesOfRoles(card, proved),
  });
  const onDemand = new Once(() => reliedOn(card, proved, options));
  Object.defineProperty(later, 'checksReliedOn', { enumerable: false, get: () => onDemand.result });
  return Object.assign(later as typeof later & Pick<Proof, 'checksReliedOn'>, {
    rules: joinParts(collector.take('rules')),
    hazards: collector.take('hazards'),
    unprotected: collector.take('unprotected'),
    leftChanged: collector.take('leftChanged'),
    unsafeStops: firstOfEachHazard(collector.take('unsafeStops')),
    notFed: collector.take('notFed'),
    notAssumed: collector.take('notAssumed'),
    duties: collector.take('duties'),
    branches: [...found.branches.values()].map(({ fact, passes, fails }) => ({ ...fact, passes, fails })),
    unreachable: unreached,
    endless: found.unknownJumps ? [] : collector.take('endless'),
    noChange: [...found.sets.values()]
      .filter((record) => record.always)
      .map(({ item, state, place }) => ({ ...plain, place, item, state })),
    atFinish: [...found.atFinish].map(([item, mask]) => ({ item, states: bitsOf(mask) })),
    doses: collector.take('doses'),
    restReliances: [...found.relyingOnRest].flatMap(restsAsked),
    configurations: proved.map(({ configuration }) => configuration.machines),
    allConfigurations: machinesOf(card).areAll,
    explored: found.explored,
    statesAt: statesOver(card, proved, options),
  });
}

function drawnBy(card: Card, { drawn, reached, proved }: Findings): Drawn {
  const written = () => new Set(proved.flatMap(({ index }) => stepsWrittenBehind(index.flow)));
  return { drawn, reached, written, onAllMachines: machinesOf(card).areAll };
}

/** Properties that are worked out once: when first read, or before by `workOut`. */
function lazily<T extends object>(makers: { readonly [Key in keyof T]: () => InParts<T[Key]> }) {
  const object = {} as T;
  const all: Once<unknown>[] = [];
  for (const key of Object.keys(makers) as (keyof T)[]) {
    const once = new Once(makers[key]);
    all.push(once);
    Object.defineProperty(object, key, { enumerable: true, get: () => once.result });
  }
  return Object.assign(object, {
    *workOut(): InParts<void> {
      for (const once of all) yield* once.inParts();
    },
    isUnderWay: () => all.some((once) => once.isUnderWay),
  });
}

function* timeOverAll(proved: readonly Proved[], time: (configuration: Configuration) => Ticks): InParts<CardTime> {
  const times: Ticks[] = [];
  for (const { configuration } of proved) {
    times.push(time(configuration));
    yield;
  }
  return cardTime(times.reduce(either));
}

function* timesOfRoles(card: Card, proved: readonly Proved[]): InParts<Proof['timePerRole']> {
  const times: { readonly role: Role; readonly time: CardTime }[] = [];
  for (const role of card.crew) {
    const time = yield* timeOverAll(proved, (configuration) => timeOfRole(card, role, configuration));
    times.push({ role, time });
  }
  return times;
}

function* reliances(card: Card, proved: readonly Proved[], options: ProofOptions): InParts<Reliance[]> {
  const stated = card.assumes.map(({ item, state, because }): Reliance => ({ item, state, because, assumed: true }));
  const found = new Map<Item, Reliance>();
  for (const { index, hanging } of proved) {
    const some = yield* relianceOn(card, index, safetyQuestions, hanging, options);
    for (const reliance of some) found.set(reliance.item, reliance);
  }
  return [...stated, ...found.values()];
}

function* reliedOn(card: Card, proved: readonly Proved[], options: ProofOptions): InParts<Set<Condition>> {
  const found = new Set<Condition>();
  for (const { index } of proved) {
    for (const condition of yield* checksReliedOn(card, index, safetyQuestions, options)) found.add(condition);
  }
  return found;
}

function restsAsked(item: Item): RestReliance[] {
  const rests = item.duties.flatMap((duty) => (duty.type === 'times-in-window' ? [duty.window] : (duty.rest ?? [])));
  return rests.length === 0 ? [] : [{ item, rest: rests.reduce(larger) }];
}

function statesOver(card: Card, proved: readonly Proved[], options: ProofOptions): StatesAt {
  const lookups = proved.map(({ index }) =>
    statesAtPlaces(index.flow.moves, () => new Asker(card, index, startOf(card), options)),
  );
  return function* (place, items) {
    const states = new Map<Item, Set<number>>();
    for (const lookup of lookups) {
      for (const { item, states: some } of yield* lookup(place, items)) {
        const all = states.get(item) ?? new Set();
        for (const state of some) all.add(state);
        states.set(item, all);
      }
    }
    return [...states].map(([item, all]): ItemStates => ({ item, states: [...all].sort((a, b) => a - b) }));
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
