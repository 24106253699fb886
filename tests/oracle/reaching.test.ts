/** Which changes of an item reach which others, held against every run of random cards. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Proof } from '../../server/proof/facts.ts';
import type { Card, Change } from '../../shared/card.ts';
import { finish } from '../../shared/parts.ts';
import { changesIn } from '../support/said-of.ts';
import { proofOf } from './engine.ts';
import { changesReaching } from './interpreter.ts';
import { seenOnAllMachines } from './machines.ts';
import { printRecipe } from './print-card.ts';
import { callsRecipe, cardRecipe } from './recipe.ts';
import { placeKey } from './verdicts.ts';

const seed = Number(process.env.SEED ?? 20261201);

function reaching(card: Card, proof: Proof): ReadonlySet<string> {
  const changes = changesIn(card);
  const key = (change: Change | undefined) => (change ? placeKey(change.place) : 'finish');
  const found = card.equipment.items.flatMap((item) => {
    const ofItem = new Set(changes.filter((change) => change.item === item));
    const reaches = finish(proof.reaching({ begins: ofItem, ends: ofItem, asks: ofItem }));
    return reaches.map(({ change, at }) => [item.name, key(change), key(at as Change | undefined)].join('\n'));
  });
  return new Set(found);
}

test(`on cards of seed ${seed} a change reaches those that it reaches on some run`, () => {
  let compared = 0;
  const recipes = [...fc.sample(cardRecipe, { numRuns: 120, seed }), ...fc.sample(callsRecipe, { numRuns: 30, seed })];
  for (const recipe of recipes) {
    const text = printRecipe(recipe);
    const { card, proof } = proofOf(text);
    const seen = seenOnAllMachines(card, 20_000, changesReaching)?.reaching;
    // The engine goes on with what is assumed, as if it were so; no run does.
    if (!seen || proof.notAssumed.length > 0) continue;
    compared += seen.size;
    expect([...reaching(card, proof)].sort(), text).toEqual([...seen].sort());
  }
  expect(compared).toBeGreaterThan(300);
});
