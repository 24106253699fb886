/** Asks every question of a card on every path, for every sort of machine on which the card differs. */

import type { Card, Gauge, Item } from '../../shared/card.ts';
import { finish, type InParts } from '../../shared/parts.ts';
import { buildFlow } from '../flow/build.ts';
import { type Configuration, machinesInParts } from '../flow/configurations.ts';
import type { Flow, Move } from '../flow/graph.ts';
import { placeKey } from './collector.ts';
import { type Asked, Asker, assumedAway, conditionsOf } from './exploring/ask.ts';
import { startOf } from './exploring/start.ts';
import type { Break, Facts, Proof, ProofOptions } from './facts.ts';
import { areSame, type Found, nothingFound } from './found.ts';
import { gather, type Proved } from './gather.ts';
import { follows } from './meaning/transition-facts.ts';
import { BranchProver, type Ways } from './questions/branches.ts';
import type { Context } from './questions/context.ts';
import { hazardQuestions } from './questions/hazards.ts';
import { callQuestion, needQuestion } from './questions/items.ts';
import { knownWays } from './questions/known-ways.ts';
import { putBackQuestion } from './questions/put-back.ts';
import { ruleQuestions } from './questions/rules.ts';
import { stepsReached, type Walked, walkQuestion } from './questions/structure.ts';
import type { QuestionMaker } from './safety-asked.ts';
import { FlowIndex } from './slicing/flow-index.ts';
import type { Question } from './slicing/question.ts';
import type { Slice } from './slicing/slice.ts';
import { proveDoses } from './time/doses.ts';
import type { TimingInput } from './time/places.ts';
import { proveDuties } from './time/timing.ts';

/** Proves a card. Reliances, times and states at places are worked out when first asked for. */
export function prove(card: Card, options: ProofOptions): Proof {
  return finish(new Prover(card, options).prove());
}

/** Proves a card, and proves it again where a bound in it has become another: then only what hangs on that gauge is asked again. */
export class Prover {
  private sorts: readonly SortProver[] | undefined;
  private facts: Facts | undefined;

  constructor(
    private readonly card: Card,
    private readonly options: ProofOptions,
  ) {}

  /** Some places of an exploration at a time. */
  *prove(): InParts<Proof> {
    const { card, options } = this;
    this.sorts ??= (yield* machinesInParts(card)).sorts.map((sort) => new SortProver(card, sort, options));
    const proved: Proved[] = [];
    for (const sort of this.sorts) proved.push(yield* sort.prove());
    yield;
    const isAsBefore = this.sorts.every((sort) => sort.hasFoundTheSame);
    const proof = gather(card, proved, safetyQuestions, options, isAsBefore ? this.facts : undefined);
    this.facts = proof.facts;
    return proof;
  }

  /** A bound on this gauge is no more what it was. Tells whether the proof may be another. */
  forget(gauge: Gauge): boolean {
    const { gauges } = this.card.equipment;
    const isWorkedWith = gauges.some((one) => one.difference && follows(one, gauge));
    return (this.sorts ?? []).map((sort) => sort.forget(gauge, isWorkedWith)).includes(true);
  }
}

/** Proves a card as it is on machines of one sort. */
class SortProver {
  private index: FlowIndex | undefined;
  private branches: BranchProver | undefined;
  private parts: readonly Part[] = [];
  /** Where it was asked again. */
  hasFoundTheSame = false;
  /** States, of all that the parts were asked so far. */
  private explored = 0;

  constructor(
    private readonly card: Card,
    private readonly configuration: Configuration,
    private readonly options: ProofOptions,
  ) {}

  *prove(): InParts<Proved> {
    const { card, configuration, options } = this;
    this.index ??= yield* this.draw();
    const { index } = this;
    const asker = new Asker(card, index, startOf(card), options);
    this.branches ??= new BranchProver(index);
    const { ways, areNew, explored } = yield* this.branches.prove(asker);
    if (areNew) this.parts = partsOf(card, index.flow);
    this.hasFoundTheSame = !areNew;
    const found: Found[] = [nothingFound(configuration.machines)];
    for (const part of this.parts) {
      if (part.isStale) {
        const now = yield* this.ask(part, asker, ways);
        this.hasFoundTheSame &&= part.found !== undefined && areSame(part.found, now);
        part.found = now;
        part.isStale = false;
        this.explored += now.explored;
      }
      found.push(part.found as Found);
    }
    return { configuration, index, taken: ways.taken, found, explored: explored + this.explored };
  }

  /** `isWorkedWith`: numbers are added up, so that every one of them counts. */
  forget(gauge: Gauge, isWorkedWith: boolean): boolean {
    const isOther = this.index?.forget(gauge) === true || isWorkedWith;
    if (!isOther) return false;
    this.branches?.forget(gauge);
    for (const part of this.parts) if (part.found?.follows.has(gauge)) part.isStale = true;
    return true;
  }

  private *draw(): InParts<FlowIndex> {
    const flow = buildFlow(this.card, { includes: this.configuration.includes });
    yield;
    const index = new FlowIndex(flow, conditionsOf(this.card));
    yield;
    return index;
  }

  private *ask({ ask }: Part, asker: Asker, ways: Ways): InParts<Found> {
    const { card, configuration, options } = this;
    const found = nothingFound(configuration.machines);
    const { index, path, lostBy } = asker;
    const start = startOf(card);
    const context: Context = { card, flow: index.flow, collector: found.collector, start, path, lostBy };
    const timing = () => ({ card, configuration, start, index, ways: knownWays(index, ways), ...options });
    yield* ask({ context, asker, found, timing });
    yield;
    return found;
  }
}

/** What the questions of a part are asked with. */
interface Asking {
  readonly context: Context;
  readonly asker: Asker;
  readonly found: Found;
  readonly timing: () => TimingInput;
}

/** Questions that are asked together, and what they have found. */
interface Part {
  readonly ask: (asking: Asking) => InParts<void>;
  found?: Found;
  /** They must be asked, or asked again. */
  isStale: boolean;
}

/** Makes the questions of a part. */
type Maker = (context: Context, found: Found) => readonly Question[];

function safetyMakers({ equipment: { rules, hazards, items } }: Card): Maker[] {
  return [
    ...rules.map(
      (rule): Maker =>
        (context) =>
          ruleQuestions(rule, context),
    ),
    ...hazards.map(
      (hazard): Maker =>
        (context) =>
          hazardQuestions(hazard, context),
    ),
    ...items.flatMap((item) =>
      item.needs.map(
        (need): Maker =>
          (context) => [needQuestion(item, need, context)],
      ),
    ),
  ];
}

function tidinessMakers(card: Card, flow: Flow): Maker[] {
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
    ...[...changed].map(
      (item): Maker =>
        (context, found) => [putBackQuestion(item, of(item).leaves, of(item).assumed, found, context)],
    ),
    ...[...calls].map(
      (assumes): Maker =>
        (context) => [callQuestion(assumes, context)],
    ),
  ];
}

function partsOf(card: Card, flow: Flow): Part[] {
  return [
    ...safetyMakers(card).map((make) => asked(make, true)),
    ...tidinessMakers(card, flow).map((make) => asked(make, false)),
    askTimes,
    walk,
  ].map((ask) => ({ ask, isStale: true }));
}

function asked(make: Maker, areSafety: boolean): Part['ask'] {
  return function* ({ context, asker, found }) {
    for (const question of make(context, found)) {
      const { slice } = yield* askOne(question, asker, found);
      if (areSafety) found.hanging.push(slice.itemsLiveAtStart());
      yield;
    }
  };
}

function* askOne(question: Question, asker: Asker, found: Found): InParts<Asked> {
  const asked = yield* asker.ask(question);
  noteGauges(asked.slice, found);
  found.explored += asked.places.nodes.length;
  return asked;
}

function noteGauges({ gauges }: Pick<Slice, 'gauges'>, { follows }: Found): void {
  for (const gauge of gauges) follows.add(gauge);
}

function* askTimes({ timing: make, found }: Asking): InParts<void> {
  const timing = make();
  const note = (slice: Slice) => noteGauges(slice, found);
  const duties = yield* proveDuties(timing, found.collector, note);
  for (const item of duties.relying) found.relyingOnRest.add(item);
  found.explored += duties.explored + (yield* proveDoses(timing, found.collector, note));
}

function* walk({ asker, found }: Asking): InParts<void> {
  const walked: Walked = { taken: new Set(), endless: [] };
  yield* askOne(walkQuestion(walked), asker, found);
  yield;
  for (const step of stepsReached(asker.index.flow, walked.taken)) found.reached.add(step);
  yield;
  for (const { place } of walked.endless) {
    found.collector.add('endless', placeKey(place), (): Break => ({ place, path: [], blended: false }));
  }
}

/** The safety questions of a card. */
const safetyQuestions: QuestionMaker = (context) =>
  safetyMakers(context.card).flatMap((make) => make(context, nothingFound()));
