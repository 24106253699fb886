/** Small random cards, each a test: the engine says what the oracle sees on the card's runs. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { differences } from '../oracle/compare.ts';
import { ask } from '../oracle/engine.ts';
import { seenOnAllMachines } from '../oracle/machines.ts';
import { printRecipe } from '../oracle/print-card.ts';
import { hasTwoHands } from '../oracle/random-cards.ts';
import { callsRecipe, cardRecipe } from '../oracle/recipe.ts';

const seed = 20_261_002;
const cards = 150;
const cardsWithCalls = 40;
/** Enough for all but a few cards; those few say nothing here, and `npm run prove` goes through larger ones. */
const mostWorlds = 1500;

const recipes = [
  ...fc.sample(cardRecipe, { seed, numRuns: cards }),
  ...fc.sample(callsRecipe, { seed, numRuns: cardsWithCalls }),
];

recipes.forEach((recipe, index) => {
  test(`random card ${index}`, () => {
    const { card, says } = ask(printRecipe(recipe));
    const seen = hasTwoHands(card) ? undefined : seenOnAllMachines(card, mostWorlds);
    expect(seen ? differences(card, seen, says) : []).toEqual([]);
  });
});
