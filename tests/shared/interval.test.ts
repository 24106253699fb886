import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exact } from '../../shared/exact.ts';
import {
  compareLows,
  containsValue,
  equalIntervals,
  type Interval,
  intersection,
  isEmpty,
  isWithin,
  leftOut,
} from '../../shared/interval.ts';

/** `[1,2)` and the like; `-` is a free end. */
function read(text: string): Interval {
  const [, open = '', low = '-', high = '-', close = ''] = /^([[(])(.+),(.+)([\])])$/.exec(text) ?? [];
  return {
    ...(low !== '-' && { low: { value: exact(low), open: open === '(' } }),
    ...(high !== '-' && { high: { value: exact(high), open: close === ')' } }),
  };
}

function write({ low, high }: Interval): string {
  return `${low?.open === false ? '[' : '('}${low?.value ?? '-'},${high?.value ?? '-'}${high?.open === false ? ']' : ')'}`;
}

test.each([
  ['[1,1]', false],
  ['[1,1)', true],
  ['(1,1]', true],
  ['(1,1)', true],
  ['[2,1]', true],
  ['(-,1)', false],
  ['(-,-)', false],
])('%s is empty: %s', (interval, empty) => {
  expect(isEmpty(read(interval))).toBe(empty);
});

test('what parts leave out', () => {
  expect(leftOut(read('(-,-)'), ['[0,1]', '[2,3]'].map(read)).map(write)).toEqual(['(-,0)', '(1,2)', '(3,-)']);
  expect(leftOut(read('[0,10]'), ['(-,2)', '[4,6]', '(6,8)'].map(read)).map(write)).toEqual(['[2,4)', '[8,10]']);
  expect(leftOut(read('(-,-)'), ['[1,2)', '[2,-)', '(-,1)'].map(read))).toEqual([]);
});

/** Small intervals against the values at and between their ends. */
describe('as sets', () => {
  const end = fc.option(
    fc.record({ value: fc.integer({ min: 0, max: 4 }).map((value) => exact(value)), open: fc.boolean() }),
    {
      nil: undefined,
    },
  );
  const anyInterval = fc
    .tuple(end, end)
    .map(([low, high]): Interval => ({ ...(low && { low }), ...(high && { high }) }));
  const values = Array.from({ length: 21 }, (_, index) => exact(index - 2, 4));
  const members = (interval: Interval) => values.map((value) => containsValue(interval, value));

  test('intersection, within and what is left out agree with membership', () => {
    fc.assert(
      fc.property(anyInterval, anyInterval, (a, b) => {
        const [inA, inB] = [members(a), members(b)];
        expect(isEmpty(a)).toBe(!inA.includes(true));
        expect(members(intersection(a, b))).toEqual(inA.map((is, index) => is && inB[index]));
        expect(isWithin(a, b)).toBe(inA.every((is, index) => !is || inB[index]));
        expect(equalIntervals(a, a)).toBe(true);
      }),
    );
  });

  test('what several parts leave out is in none of them, in rising stretches that do not touch', () => {
    fc.assert(
      fc.property(anyInterval, fc.array(anyInterval, { maxLength: 4 }), (whole, parts) => {
        const rest = leftOut(whole, parts);
        const inParts = parts.map(members);
        const out = members(whole).map((is, index) => is && !inParts.some((inPart) => inPart[index]));
        expect(values.map((value) => rest.some((piece) => containsValue(piece, value)))).toEqual(out);
        expect(out.filter((is, index) => is && !out[index - 1])).toHaveLength(rest.length);
        rest.slice(1).forEach((piece, index) => {
          expect(compareLows(rest[index]?.low, piece.low)).toBeLessThan(0);
        });
      }),
    );
  });
});
