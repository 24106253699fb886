/** Asks every question of a card on every path, for every sort of machine on which the card differs. */

import type { Card, Gauge } from '../../shared/card.ts';
import { finish, type InParts } from '../../shared/parts.ts';
import { buildFlow } from '../flow/build.ts';
import { type Configuration, machinesInParts } from '../flow/configurations.ts';
import type { Flow } from '../flow/graph.ts';
import { allQuestions, makersFor, type NamedMaker } from './all-questions.ts';
import { type Asked, Asker, conditionsOf } from './exploring/ask.ts';
import { startOf } from './exploring/start.ts';
import type { Facts, Proof, ProofOptions } from './facts.ts';
import { areSame, type Found, nothingFound } from './found.ts';
import { gather, type Proved } from './gather.ts';
import { follows } from './meaning/transition-facts.ts';
import { BranchProver, type Ways } from './questions/branches.ts';
import { type KnownWays, knownWays } from './questions/known-ways.ts';
import type { TimedContext } from './questions/sort.ts';
import { FlowIndex } from './slicing/flow-index.ts';

/** Proves a card. Reliances, times and states at places are worked out when first asked for. */
export function prove(card: Card, options: ProofOptions): Proof {
  return finish(new Prover(card, options).prove());
}

/** Proves a card, and proves it again where a bound in it has become another: then only what hangs on that gauge is asked again. */
export class Prover {
  /** One for each sort of machine. */
  private provers: readonly MachineProver[] | undefined;
  private facts: Facts | undefined;

  constructor(
    private readonly card: Card,
    private readonly options: ProofOptions,
  ) {}

  /** Some places of an exploration at a time. */
  *prove(): InParts<Proof> {
    const { card, options } = this;
    this.provers ??= (yield* machinesInParts(card)).sorts.map((sort) => new MachineProver(card, sort, options));
    const proved: Proved[] = [];
    for (const prover of this.provers) proved.push(yield* prover.prove());
    yield;
    const isAsBefore = this.provers.every((prover) => prover.hasFoundTheSame);
    const proof = gather(card, proved, options, isAsBefore ? this.facts : undefined);
    this.facts = proof.facts;
    return proof;
  }

  /** A bound on this gauge is no more what it was. Tells whether the proof may be another. */
  forget(gauge: Gauge): boolean {
    const { gauges } = this.card.equipment;
    const isWorkedWith = gauges.some((one) => one.difference && follows(one, gauge));
    return (this.provers ?? []).map((prover) => prover.forget(gauge, isWorkedWith)).includes(true);
  }
}

/** Proves a card as it is on machines of one sort. */
class MachineProver {
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
    const asker = new Asker(card, index, options);
    this.branches ??= new BranchProver(index);
    const { ways, areNew, explored } = yield* this.branches.prove(asker);
    if (areNew) this.parts = partsOf(card, index.flow);
    this.hasFoundTheSame = !areNew;
    const found: Found[] = [];
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
    const index = yield* this.indexOf(false);
    const asksTimes = index.stays.length > 0 && index.flow.moves.some(({ lane }) => lane);
    return asksTimes ? yield* this.indexOf(true) : index;
  }

  private *indexOf(keepsTimes: boolean): InParts<FlowIndex> {
    const flow = buildFlow(this.card, { includes: this.configuration.includes, keepsTimes });
    yield;
    const index = new FlowIndex(flow, conditionsOf(this.card));
    yield;
    return index;
  }

  private *ask({ list, ask }: Part, asker: Asker, ways: Ways): InParts<Found> {
    const { card, configuration, options } = this;
    const found = nothingFound(list, configuration.machines);
    const { index, path, lostBy } = asker;
    const { collector, noted } = found;
    let known: KnownWays | undefined;
    const context: TimedContext = {
      ...options,
      card,
      configuration,
      flow: index.flow,
      index,
      collector,
      noted,
      start: startOf(card),
      path,
      lostBy,
      get ways() {
        known ??= knownWays(index, ways);
        return known;
      },
      noteExplored: (asked) => noteExplored(asked, found),
    };
    yield* ask(context, asker, found);
    yield;
    return found;
  }
}

/** Questions that are asked together, and what they have found. */
interface Part {
  readonly list: string;
  readonly ask: (context: TimedContext, asker: Asker, found: Found) => InParts<void>;
  found?: Found;
  /** They must be asked, or asked again. */
  isStale: boolean;
}

function partsOf(card: Card, flow: Flow): Part[] {
  const asked = makersFor(card, flow).map((maker): [string, Part['ask']] => [maker.list, askAll(maker)]);
  const timed = allQuestions.flatMap(([list, sort]): [string, Part['ask']][] =>
    sort.timed ? [[list, sort.timed]] : [],
  );
  return [...asked, ...timed].map(([list, ask]) => ({ list, ask, isStale: true }));
}

function askAll({ name, sort, make }: NamedMaker): Part['ask'] {
  return function* (context, asker, found) {
    for (const [number, question] of make(context).entries()) {
      const asked = yield* asker.ask(question);
      noteExplored(asked, found);
      if (sort.reason) found.hanging.set(`${name} ${number}`, asked.slice.itemsLiveAtStart());
      yield;
    }
  };
}

function noteExplored({ slice, places }: Asked, found: Found): void {
  for (const gauge of slice.gauges) found.follows.add(gauge);
  found.explored += places.nodes.length;
}
