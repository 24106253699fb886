import { expect, test } from 'vitest';
import { numbers } from '../support/numbers.ts';
import { compareCards } from './random-cards.ts';
import { callsRecipe, lanesRecipe } from './recipe.ts';

/** The same cards at every run, or others from SEED on; `npm run prove` compares many thousand. The seed is in the report of a difference. */
const firstSeed = Number(process.env.SEED ?? 1);

test('engine and oracle agree on random cards', () => {
  const seeds = numbers(14).map((n) => firstSeed + n - 1);
  const results = seeds.flatMap((seed) => [
    compareCards(seed, 25),
    compareCards(seed, 2, lanesRecipe),
    compareCards(seed, 5, callsRecipe),
  ]);
  expect(results.flatMap(({ differing }) => differing).join('\n\n')).toBe('');
  expect(results.reduce((sum, { counts }) => sum + counts.cards, 0)).toBeGreaterThan(250);
});
