/** The order of ends, and equality, at and beside the same value. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { exact } from '../../shared/exact.ts';
import { compareHighs, compareLows, equalIntervals, everything, interval, isWithin } from '../../shared/interval.ts';

const end = (value: number, open: boolean) => ({ value: exact(value), open });

/** From the one that begins first, or ends first, to the last. */
const lows = [undefined, end(1, false), end(1, true), end(2, false), end(2, true)];
const highs = [end(1, true), end(1, false), end(2, true), end(2, false), undefined];

test.each([
  ['lower', compareLows, lows],
  ['upper', compareHighs, highs],
] as const)('%s ends are in order', (_, compare, ends) => {
  const orders = ends.map((a) => ends.map((b) => Math.sign(compare(a, b))));
  expect(orders).toEqual(ends.map((_, a) => ends.map((_, b) => Math.sign(a - b))));
});

test('intervals are equal where both ends are', () => {
  const both = ends(lows, highs);
  fc.assert(
    fc.property(fc.nat({ max: both.length - 1 }), fc.nat({ max: both.length - 1 }), (a, b) => {
      const [left, right] = [both[a], both[b]];
      if (left && right) expect(equalIntervals(left, right)).toBe(a === b);
    }),
  );
});

function ends(low: typeof lows, high: typeof highs) {
  return low.flatMap((from) => high.map((to) => ({ ...(from && { low: from }), ...(to && { high: to }) })));
}

test('an interval of values holds them', () => {
  expect(interval(exact(1), exact(2))).toEqual({ low: end(1, false), high: end(2, false) });
  expect(interval(undefined, exact(2))).toEqual({ high: end(2, false) });
  expect(interval(exact(1))).toEqual({ low: end(1, false) });
  expect(interval()).toEqual(everything);
});

test('an empty interval lies in every other', () => {
  expect(isWithin(interval(exact(2), exact(1)), interval(exact(7), exact(8)))).toBe(true);
});
