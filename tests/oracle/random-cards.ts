/** Random cards, held against the oracle both ways. */
import * as fc from 'fast-check';
import type { Card, Item, Stage, Statement, Step, Together } from '../../shared/card.ts';
import { describeDifferences, differences } from './compare.ts';
import { bodiesOf } from './conditions.ts';
import { ask } from './engine.ts';
import { runEverything } from './interpreter.ts';
import { nodesOf } from './nodes.ts';
import { printRecipe } from './print-card.ts';
import { TooBig } from './readings.ts';
import { cardRecipe } from './recipe.ts';

export interface Comparison {
  readonly compared: number;
  /** Cards with more runs than the oracle can go through. */
  readonly tooBig: number;
  readonly verdicts: number;
  /** Reports of the cards on which engine and oracle differ. */
  readonly differing: readonly string[];
}

const mostWorlds = 20_000;

/** Compares `count` cards made from the seed. */
export function compareCards(seed: number, count: number, recipes = cardRecipe): Comparison {
  const differing: string[] = [];
  let compared = 0;
  let tooBig = 0;
  let verdicts = 0;
  for (const recipe of fc.sample(recipes, { numRuns: count, seed })) {
    const text = printRecipe(recipe);
    const { card, says } = ask(text);
    if (hasTwoHands(card)) continue;
    const seen = seenOnAllRuns(card);
    if (!seen) {
      tooBig++;
      continue;
    }
    compared++;
    verdicts += seen.verdicts().length;
    const found = differences(card, seen, says);
    if (found.length > 0) differing.push(`seed ${seed}\n${describeDifferences(text, found)}`);
  }
  return { compared, tooBig, verdicts, differing };
}

/** One item driven from two lanes is a finding of its own, and what two runs of it at once would mean is not said. */
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

function seenOnAllRuns(card: Parameters<typeof runEverything>[0]) {
  try {
    return runEverything(card, mostWorlds);
  } catch (error) {
    if (error instanceof TooBig) return undefined;
    throw error;
  }
}
