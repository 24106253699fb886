/** Random cards, held against the oracle both ways. */
import * as fc from 'fast-check';
import { describeDifferences, differences } from './compare.ts';
import { ask } from './engine.ts';
import { runEverything } from './interpreter.ts';
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
export function compareCards(seed: number, count: number): Comparison {
  const differing: string[] = [];
  let compared = 0;
  let tooBig = 0;
  let verdicts = 0;
  for (const recipe of fc.sample(cardRecipe, { numRuns: count, seed })) {
    const text = printRecipe(recipe);
    const { card, says } = ask(text);
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

function seenOnAllRuns(card: Parameters<typeof runEverything>[0]) {
  try {
    return runEverything(card, mostWorlds);
  } catch (error) {
    if (error instanceof TooBig) return undefined;
    throw error;
  }
}
