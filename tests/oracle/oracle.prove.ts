/** `npm run prove`: many random cards against the oracle. PROVE_CARDS and SEED choose how many and which. */
import { expect, test } from 'vitest';
import { compareCards } from './random-cards.ts';

const wanted = Number(process.env.PROVE_CARDS ?? 20_000);
const seed = Number(process.env.SEED ?? 1);
const atOnce = 250;

test(`engine and oracle agree on ${wanted} random cards from seed ${seed} on`, () => {
  const total = { compared: 0, tooBig: 0, verdicts: 0 };
  const differing: string[] = [];
  for (let part = 0; total.compared < wanted; part++) {
    const result = compareCards(seed + part, atOnce);
    total.compared += result.compared;
    total.tooBig += result.tooBig;
    total.verdicts += result.verdicts;
    differing.push(...result.differing);
    if (part % 8 === 7) console.log(`${total.compared} cards compared, ${differing.length} with a difference`);
  }
  console.log(
    `${total.compared} cards with ${total.verdicts} verdicts compared, ${total.tooBig} too big for the oracle, ${differing.length} disagreements`,
  );
  expect(differing.slice(0, 3).join('\n\n')).toBe('');
});
