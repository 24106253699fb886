/** Small random cards, each a test: the engine says what the oracle sees on the card's runs. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Card } from '../../shared/card.ts';
import { differences } from '../oracle/compare.ts';
import { ask } from '../oracle/engine.ts';
import { runEverything } from '../oracle/interpreter.ts';
import { printRecipe } from '../oracle/print-card.ts';
import { hasTwoHands } from '../oracle/random-cards.ts';
import { TooBig } from '../oracle/readings.ts';
import { cardRecipe } from '../oracle/recipe.ts';
import type { Sightings } from '../oracle/verdicts.ts';

const seed = 20_261_002;
const cards = 150;
/** Enough for all but a few cards; those few say nothing here, and `npm run prove` goes through larger ones. */
const mostWorlds = 1500;

fc.sample(cardRecipe, { seed, numRuns: cards }).forEach((recipe, index) => {
  test(`random card ${index}`, () => {
    const { card, says } = ask(printRecipe(recipe));
    const seen = hasTwoHands(card) ? undefined : seenOnAllRuns(card);
    expect(seen ? differences(card, seen, says) : []).toEqual([]);
  });
});

function seenOnAllRuns(card: Card): Sightings | undefined {
  try {
    return runEverything(card, mostWorlds);
  } catch (error) {
    if (error instanceof TooBig) return undefined;
    throw error;
  }
}
