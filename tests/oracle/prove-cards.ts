/** The long comparison of `npm run prove`. Its halves run side by side, each over every other seed. */
import { expect, test } from 'vitest';
import { compareCards } from './random-cards.ts';

/** PROVE_CARDS and SEED choose how many cards, and which. */
const wanted = Number(process.env.PROVE_CARDS ?? 20_000);
const seed = Number(process.env.SEED ?? 1);
const cardsOfASeed = 250;

export function proveHalf(half: 0 | 1): void {
  test(`engine and oracle agree on ${wanted / 2} random cards, every other seed from ${seed + half} on`, () => {
    const total = { compared: 0, tooBig: 0, verdicts: 0 };
    const differing: string[] = [];
    let next = seed + half;
    for (; total.compared < wanted / 2; next += 2) {
      const result = compareCards(next, cardsOfASeed);
      total.compared += result.compared;
      total.tooBig += result.tooBig;
      total.verdicts += result.verdicts;
      differing.push(...result.differing);
    }
    console.log(
      `Seeds ${seed + half} to ${next - 2}, every other: ${total.compared} cards with ${total.verdicts} verdicts compared, ` +
        `${total.tooBig} too big for the oracle, ${differing.length} disagreements`,
    );
    expect(differing.slice(0, 3).join('\n\n')).toBe('');
  });
}
