/** Masks of states. */
import { expect, test } from 'vitest';
import { bitsOf, isSingle } from '../../../server/proof/state.ts';

test('one state is neither none nor several', () => {
  expect([0, 0b1, 0b100, 0b11, 0b110].map(isSingle)).toEqual([false, true, true, false, false]);
});

test('a mask has the states of its bits, up to the highest', () => {
  expect(bitsOf(0)).toEqual([]);
  expect(bitsOf(0b1011)).toEqual([0, 1, 3]);
  expect(bitsOf(2 ** 31 - 1)).toHaveLength(31);
});
