/** Random cards, held against the oracle both ways. */
import * as fc from 'fast-check';
import type { Card, Item, Stage, Statement, Step, Together } from '../../shared/card.ts';
import { describeDifferences, differences } from './compare.ts';
import { bodiesOf } from './conditions.ts';
import { ask } from './engine.ts';
import { seenOnAllMachines } from './machines.ts';
import { nodesOf } from './nodes.ts';
import { printRecipe } from './print-card.ts';
import { cardRecipe } from './recipe.ts';
import type { Sightings } from './verdicts.ts';

/** What was compared, to be added up over seeds. */
export interface Counts {
  readonly cards: number;
  /** Those of them on which two lanes drive one item: compared but for duties. */
  readonly twoHands: number;
  /** Cards with more runs than the oracle can go through. */
  readonly tooBig: number;
  readonly verdicts: number;
  /** Rules, hazards and needs that may break by themselves, with every place decided. */
  readonly decided: number;
  /** Those of which the oracle had too many paths for that. */
  readonly undecided: number;
  /** Places at which a break that comes by itself may be told and need not. */
  readonly mayBeTold: number;
}

export interface Comparison {
  readonly counts: Counts;
  /** Reports of the cards on which engine and oracle differ. */
  readonly differing: readonly string[];
}

export const NOTHING_COUNTED: Counts = {
  cards: 0,
  twoHands: 0,
  tooBig: 0,
  verdicts: 0,
  decided: 0,
  undecided: 0,
  mayBeTold: 0,
};

export function addedUp(some: Counts, others: Counts): Counts {
  return {
    cards: some.cards + others.cards,
    twoHands: some.twoHands + others.twoHands,
    tooBig: some.tooBig + others.tooBig,
    verdicts: some.verdicts + others.verdicts,
    decided: some.decided + others.decided,
    undecided: some.undecided + others.undecided,
    mayBeTold: some.mayBeTold + others.mayBeTold,
  };
}

const mostWorlds = 20_000;

/** Compares `count` cards made from the seed. */
export function compareCards(seed: number, count: number, recipes = cardRecipe): Comparison {
  const differing: string[] = [];
  let counts = NOTHING_COUNTED;
  for (const recipe of fc.sample(recipes, { numRuns: count, seed })) {
    const text = printRecipe(recipe);
    const { card, says } = ask(text);
    const seen = seenOnAllMachines(card, mostWorlds);
    if (!seen) {
      counts = addedUp(counts, { ...NOTHING_COUNTED, tooBig: 1 });
      continue;
    }
    const twoHands = hasTwoHands(card);
    counts = addedUp(counts, countsOf(seen, twoHands));
    const found = differences(card, seen, says).filter(({ code }) => !twoHands || !code.startsWith('duty.'));
    if (found.length > 0) differing.push(`seed ${seed}\n${describeDifferences(text, found)}`);
  }
  return { counts, differing };
}

function countsOf(seen: Sightings, twoHands: boolean): Counts {
  return {
    cards: 1,
    twoHands: Number(twoHands),
    tooBig: 0,
    verdicts: seen.verdicts().length,
    decided: seen.strict.size,
    undecided: seen.lenient.size,
    mayBeTold: seen.verdictsThatMayBeTold().length,
  };
}

/**
 * One item driven from two lanes: a finding of its own. For states and rules every interleaving counts, and the last change wins; how long a run lasts
 * that two drive is not said.
 */
export function hasTwoHands(card: Card): boolean {
  return nodesOf(card).some((node) => {
    if (node.type !== 'together') return false;
    const lanes = (node as Together).lanes.map((lane) => new Set(lane.body.flatMap(drivenIn)));
    return lanes.some((lane, index) =>
      lanes.slice(index + 1).some((other) => [...lane].some((item) => other.has(item))),
    );
  });
}

function drivenIn(statement: Stage | Statement): Item[] {
  const own = statement.type === 'step' ? statement.actions.flatMap(drivenBy) : [];
  return [...own, ...bodiesOf(statement).flat().flatMap(drivenIn)];
}

function drivenBy(action: Step['actions'][number]): Item[] {
  if (action.type === 'run') return [action.item];
  return action.type === 'set' || action.type === 'ensure' ? action.changes.map(({ item }) => item) : [];
}
