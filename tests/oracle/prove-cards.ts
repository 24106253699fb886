/** The long comparison of `npm run prove`. Its halves run side by side, each over every other seed. */
import { expect, test } from 'vitest';
import { addedUp, compareCards, NOTHING_COUNTED } from './random-cards.ts';
import { callsRecipe, lanesRecipe } from './recipe.ts';

/** PROVE_CARDS and SEED choose how many cards, and which. */
const wanted = Number(process.env.PROVE_CARDS ?? 20_000);
const seed = Number(process.env.SEED ?? 1);
const cardsOfASeed = 220;
const cardsWithCalls = 20;
/** Most of what is done in these is done in lanes: they take the oracle ten times as long. */
const cardsInLanes = 10;

export function proveHalf(half: 0 | 1): void {
  test(`engine and oracle agree on ${wanted / 2} random cards, every other seed from ${seed + half} on`, () => {
    let total = NOTHING_COUNTED;
    const differing: string[] = [];
    let next = seed + half;
    for (; total.cards < wanted / 2; next += 2) {
      const results = [
        compareCards(next, cardsOfASeed),
        compareCards(next, cardsInLanes, lanesRecipe),
        compareCards(next, cardsWithCalls, callsRecipe),
      ];
      for (const result of results) {
        total = addedUp(total, result.counts);
        differing.push(...result.differing);
      }
    }
    console.log(
      `Seeds ${seed + half} to ${next - 2}, every other: ${total.cards} cards with ${total.verdicts} verdicts compared, ${total.twoHands} of them but for ` +
        `duties, ${total.tooBig} too big for the oracle, ${differing.length} disagreements. ${total.decided} rules, hazards and needs that may break by ` +
        `themselves decided place by place, with ${total.mayBeTold} places at which they may be told and need not; ${total.undecided} on too many paths`,
    );
    expect(differing.slice(0, 3).join('\n\n')).toBe('');
  });
}
