/** Masks of states. */
import { expect, test } from 'vitest';
import { allStates, bitsOf, isSingle } from '../../../server/proof/meaning/state.ts';
import type { Item } from '../../../shared/card.ts';
import { numbers } from '../../support/numbers.ts';

test('one state is neither none nor several', () => {
  expect([0, 0b1, 0b100, 0b11, 0b110].map(isSingle)).toEqual([false, true, true, false, false]);
});

test('a mask has the states of its bits, up to the highest', () => {
  expect(bitsOf(0)).toEqual([]);
  expect(bitsOf(0b1011)).toEqual([0, 1, 3]);
  expect(bitsOf(2 ** 31 - 1)).toHaveLength(31);
});

test('all states of an item, as far as a mask has bits', () => {
  const itemOf = (states: number) => ({ kind: { states: numbers(states) } }) as unknown as Item;
  expect([2, 5, 31, 40].map((states) => allStates(itemOf(states)))).toEqual([0b11, 0b11111, 2 ** 31 - 1, 2 ** 31 - 1]);
});
