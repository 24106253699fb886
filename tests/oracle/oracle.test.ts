import { expect, test } from 'vitest';
import { compareCards } from './random-cards.ts';

/** `npm run prove` compares many thousand; these are other cards at each run, and the seed is in the report of a difference. */
test('engine and oracle agree on random cards', { timeout: 120_000 }, () => {
  const seed = Number(process.env.SEED ?? Math.floor(Math.random() * 2 ** 31));
  const { compared, differing } = compareCards(seed, 200);
  expect(differing.join('\n\n')).toBe('');
  expect(compared).toBeGreaterThan(150);
});
