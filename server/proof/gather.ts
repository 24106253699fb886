/** What all questions have found, as one proof; and what is worked out of it only when somebody wants it. */

import type { Card, Condition, Item, Role } from '../../shared/card.ts';
import { larger } from '../../shared/exact.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { type InParts, Once } from '../../shared/parts.ts';
import { type Configuration, machinesOf } from '../flow/configurations.ts';
import { either, type Ticks } from '../flow/time.ts';
import { allQuestions, type QuestionFacts } from './all-questions.ts';
import { placeKey } from './break.ts';
import { factsOf } from './collector.ts';
import { Asker } from './exploring/ask.ts';
import type { Facts, ItemStates, Proof, ProofOptions, Reach, Reliance, RestReliance, StatesAt } from './facts.ts';
import type { Found } from './found.ts';
import { bitsOf } from './meaning/state.ts';
import { checksReliedOn } from './on-demand/checks-relied-on.ts';
import { reachingChanges } from './on-demand/reaching-changes.ts';
import { relianceOn } from './on-demand/reliance.ts';
import { statesAtPlaces } from './on-demand/states-at.ts';
import { statesAtStops } from './on-demand/states-at-stops.ts';
import type { BranchFact } from './questions/branches.ts';
import type { Noted, SetRecord } from './questions/sort.ts';
import { type Drawn, firstUnreached, stepsWrittenBehind } from './questions/structure.ts';
import type { FlowIndex } from './slicing/flow-index.ts';
import { type CardTime, cardTime, timeOfCard, timeOfRole } from './time/card-time.ts';

/** One configuration after its questions were asked, kept for what is worked out only when somebody wants it. */
export interface Proved {
  readonly configuration: Configuration;
  readonly index: FlowIndex;
  /** The conditional moves that some path takes. */
  readonly taken: ReadonlySet<number>;
  readonly found: readonly Found[];
  /** How many states were explored for it so far. */
  readonly explored: number;
}

/** `known`: what was found before, where it is the same. */
export function gather(card: Card, proved: readonly Proved[], options: ProofOptions, known?: Facts): Proof {
  const facts = known ?? factsIn(card, proved);
  const later = lazily({
    reliances: () => reliances(card, proved, options),
    time: () =>
      timeOverAll(proved, (one) => getOrInsert(timesKnown, one.index, () => timeOfCard(card, one.configuration))),
    timePerRole: () => timesOfRoles(card, proved),
  });
  const relied = new Once(() => reliedOn(card, proved, options));
  const stopped = new Once(() => statesAtAllStops(card, proved, facts, options));
  Object.defineProperties(later, {
    checksReliedOn: { enumerable: false, get: () => relied.result },
    atStops: { enumerable: false, get: () => stopped.result },
  });
  return Object.assign(later as typeof later & Pick<Proof, 'checksReliedOn' | 'atStops'>, facts, {
    facts,
    explored: proved.reduce((sum, { explored }) => sum + explored, 0),
    statesAt: statesOver(card, proved, options),
    reaching: reachingOver(card, proved, options),
  });
}

function factsIn(card: Card, proved: readonly Proved[]): Facts {
  const noted = proved.flatMap(({ found }) => found.map((one) => one.noted));
  const withoutPath = { path: [], blended: false };
  const hasUnknownJumps = proved.some(({ index }) => index.flow.unknownJumps);
  return {
    ...listsOf(proved),
    ...(hasUnknownJumps && { endless: [] }),
    branches: branchesOf(proved),
    unreachable: hasUnknownJumps ? [] : firstUnreached(card, drawnBy(card, proved)),
    noChange: setsOf(noted)
      .filter((record) => record.always)
      .map(({ item, state, place }) => ({ ...withoutPath, place, item, state })),
    atFinish: statesAtFinish(noted),
    restReliances: [...new Set(noted.flatMap(({ relyingOnRest }) => [...relyingOnRest]))].flatMap(restsAsked),
    configurations: proved.map(({ configuration }) => configuration.machines),
    allConfigurations: machinesOf(card).areAll,
  };
}

function listsOf(proved: readonly Proved[]): QuestionFacts {
  const found = proved.flatMap((one) => one.found);
  const lists = allQuestions.map(([list, { join, conclude }]) => {
    const collectors = found.flatMap((one) => (one.list === list ? one.collector : []));
    const facts = factsOf(collectors, proved.length, join);
    return [list, conclude?.(facts) ?? facts];
  });
  return Object.fromEntries(lists) as QuestionFacts;
}

function branchesOf(proved: readonly Proved[]): BranchFact[] {
  const branches = new Map<string, BranchFact & { passes: boolean; fails: boolean }>();
  for (const { index, taken } of proved) {
    for (const [at, move] of index.flow.moves.entries()) {
      if (!move.branch) continue;
      const { statement, form, passes } = move.branch;
      // A `keep` is asked at each step.
      const key = `${placeKey(statement.place)} ${placeKey(move.place)}`;
      const { place } = move;
      const known = getOrInsert(branches, key, () => ({ statement, place, form, passes: false, fails: false }));
      if (taken.has(at)) known[passes ? 'passes' : 'fails'] = true;
    }
  }
  return [...branches.values()];
}

/** One text may set several items, in a `for each` or a procedure: it changes nothing where it changes none of them. */
function setsOf(noted: readonly Noted[]): SetRecord[] {
  const sets = new Map<string, SetRecord>();
  for (const record of noted.flatMap((one) => [...one.sets.values()])) {
    const key = placeKey(record.place);
    const known = sets.get(key) ?? record;
    sets.set(key, { ...known, always: known.always && record.always });
  }
  return [...sets.values()];
}

function statesAtFinish(noted: readonly Noted[]): ItemStates[] {
  return statesOf(noted.flatMap(({ atFinish }) => [...atFinish]));
}

/** Of the same items. */
function* statesAtAllStops(
  card: Card,
  proved: readonly Proved[],
  { atFinish }: Facts,
  options: ProofOptions,
): InParts<ItemStates[]> {
  const items = atFinish.map(({ item }) => item);
  const masks: [Item, number][] = [];
  for (const { index } of proved) masks.push(...(yield* statesAtStops(new Asker(card, index, options), items)));
  return statesOf(masks);
}

/** All that some of the masks of an item allow. */
function statesOf(all: readonly (readonly [Item, number])[]): ItemStates[] {
  const masks = new Map<Item, number>();
  for (const [item, mask] of all) masks.set(item, (masks.get(item) ?? 0) | mask);
  return [...masks].map(([item, mask]) => ({ item, states: bitsOf(mask) }));
}

function drawnBy(card: Card, proved: readonly Proved[]): Drawn {
  return {
    drawn: new Set(proved.flatMap(({ index }) => index.flow.steps)),
    reached: new Set(proved.flatMap(({ found }) => found.flatMap(({ noted }) => [...noted.reached]))),
    asked: new Set(
      proved.flatMap(({ index, taken }) =>
        [...taken].flatMap((move) => index.flow.moves[move]?.branch?.statement ?? []),
      ),
    ),
    written: () => new Set(proved.flatMap(({ index }) => stepsWrittenBehind(index))),
    onAllMachines: machinesOf(card).areAll,
  };
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

/** A card that is proved again takes as long as before. */
const timesKnown = new WeakMap<FlowIndex, Ticks>();

function* timeOverAll(proved: readonly Proved[], time: (one: Proved) => Ticks): InParts<CardTime> {
  const times: Ticks[] = [];
  for (const one of proved) {
    times.push(time(one));
    yield;
  }
  return cardTime(times.reduce(either));
}

function* timesOfRoles(card: Card, proved: readonly Proved[]): InParts<Proof['timePerRole']> {
  const times: { readonly role: Role; readonly time: CardTime }[] = [];
  for (const role of card.crew) {
    const time = yield* timeOverAll(proved, ({ configuration }) => timeOfRole(card, role, configuration));
    times.push({ role, time });
  }
  return times;
}

function* reliances(card: Card, proved: readonly Proved[], options: ProofOptions): InParts<Reliance[]> {
  const stated = card.assumes.map(({ item, state, because }): Reliance => ({ item, state, because, assumed: true }));
  const found = new Map<Item, Reliance>();
  for (const { index, found: parts } of proved) {
    const hanging = new Map(parts.flatMap((part) => [...part.hanging]));
    const some = yield* relianceOn({ card, index, options }, hanging);
    for (const reliance of some) found.set(reliance.item, reliance);
  }
  return [...stated, ...found.values()];
}

function* reliedOn(card: Card, proved: readonly Proved[], options: ProofOptions): InParts<Set<Condition>> {
  const found = new Set<Condition>();
  for (const { index } of proved) {
    for (const condition of yield* checksReliedOn({ card, index, options })) found.add(condition);
  }
  return found;
}

function restsAsked(item: Item): RestReliance[] {
  const rests = item.duties.flatMap((duty) => (duty.type === 'times-in-window' ? [duty.window] : (duty.rest ?? [])));
  return rests.length === 0 ? [] : [{ item, rest: rests.reduce(larger) }];
}

function statesOver(card: Card, proved: readonly Proved[], options: ProofOptions): StatesAt {
  const lookups = proved.map(({ index }) => statesAtPlaces(index.flow.moves, () => new Asker(card, index, options)));
  return function* (place, items) {
    const states = new Map<Item, Set<number>>();
    for (const lookup of lookups) {
      for (const { item, states: some } of yield* lookup(place, items)) {
        const all = getOrInsert(states, item, () => new Set());
        for (const state of some) all.add(state);
      }
    }
    return [...states].map(([item, all]): ItemStates => ({ item, states: [...all].sort((a, b) => a - b) }));
  };
}

function reachingOver(card: Card, proved: readonly Proved[], options: ProofOptions): Proof['reaching'] {
  return function* (following) {
    const found: Reach[] = [];
    for (const { configuration, index } of proved) {
      const { machines } = configuration;
      const some = yield* reachingChanges(new Asker(card, index, options), following);
      found.push(...some.map((one) => ({ ...one, machines })));
    }
    return found;
  };
}
