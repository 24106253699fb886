/** A gauge's scale cut at the values that bounds name: sets of regions say what the bounds say. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { GaugeRegions } from '../../../server/proof/regions.ts';
import type { Bound } from '../../../shared/card.ts';
import { exact } from '../../../shared/exact.ts';
import type { Interval } from '../../../shared/interval.ts';

const place = { file: 'a.card', start: 0, end: 0 };
const end = fc.record({ value: fc.integer({ min: 1, max: 5 }).map((value) => exact(value)), open: fc.boolean() });
const interval: fc.Arbitrary<Interval> = fc
  .record({ low: fc.option(end, { nil: undefined }), high: fc.option(end, { nil: undefined }) })
  .map(({ low, high }) => ({ ...(low && { low }), ...(high && { high }) }));

const bound = (of: Interval): Bound => ({ form: 'range', interval: of, place }) as unknown as Bound;

function isIn(value: number, { low, high }: Interval): boolean {
  const compared = (cut: NonNullable<Interval['low']>) => exact(Math.round(value * 2), 2).compare(cut.value);
  return (
    (!low || (low.open ? compared(low) > 0 : compared(low) >= 0)) &&
    (!high || (high.open ? compared(high) < 0 : compared(high) <= 0))
  );
}

/** Every whole value that is named, and one between each two: the regions in order. */
function samples(named: readonly number[]): number[] {
  const [first, last] = [named[0] as number, named.at(-1) as number];
  const between = named.flatMap((value, index) => {
    const next = named[index + 1];
    return next === undefined ? [value] : [value, (value + next) / 2];
  });
  return [first - 0.5, ...between, last + 0.5];
}

test('a mask has the regions whose values lie in the interval', () => {
  fc.assert(
    fc.property(fc.array(interval, { minLength: 1, maxLength: 4 }), (intervals) => {
      const regions = GaugeRegions.of(intervals.map(bound));
      const named = [
        ...new Set(intervals.flatMap(({ low, high }) => [low, high].flatMap((one) => one?.value.valueOf() ?? []))),
      ].sort((a, b) => a - b);
      const values = named.length === 0 ? [0] : samples(named);
      expect(regions.all).toBe(2 ** values.length - 1);
      for (const one of intervals) {
        const mask = values.reduce((bits, value, region) => (isIn(value, one) ? bits | (1 << region) : bits), 0);
        expect(regions.maskOf(one)).toBe(mask);
      }
    }),
    { seed: 1, numRuns: 300 },
  );
});

test('a bound between the cuts is not known', () => {
  const regions = GaugeRegions.of([bound({ low: { value: exact(2), open: false } })]);
  expect(regions.maskOf({ low: { value: exact(3), open: false } })).toBeUndefined();
  expect(regions.maskOf({ high: { value: exact(2), open: true } })).toBe(0b001);
});

test('fifteen values are all that a mask holds; the highest are not known', () => {
  const at = (value: number): Interval => ({ low: { value: exact(value), open: false } });
  const regions = GaugeRegions.of(Array.from({ length: 17 }, (_, value) => bound(at(value))));
  expect(regions.all).toBe(2 ** 31 - 1);
  expect(regions.maskOf(at(0))).toBe(2 ** 31 - 2);
  expect(regions.maskOf(at(14))).toBe(2 ** 30 + 2 ** 29);
  expect(regions.maskOf(at(15))).toBeUndefined();
});
