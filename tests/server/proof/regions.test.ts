/** A gauge's scale cut where bounds begin and end: sets of regions say what the bounds say. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { GaugeRegions } from '../../../server/proof/meaning/regions.ts';
import { isSingle } from '../../../server/proof/meaning/state.ts';
import type { Bound } from '../../../shared/card.ts';
import { exact } from '../../../shared/exact.ts';
import { containsValue, type Interval, type IntervalEnd, isEmpty } from '../../../shared/interval.ts';

const place = { file: 'a.card', start: 0, end: 0 };
const end = fc.record({ value: fc.integer({ min: 1, max: 5 }).map((value) => exact(value)), open: fc.boolean() });
const interval: fc.Arbitrary<Interval> = fc
  .record({ low: fc.option(end, { nil: undefined }), high: fc.option(end, { nil: undefined }) })
  .map(({ low, high }) => ({ ...(low && { low }), ...(high && { high }) }));

const bound = (of: Interval): Bound => ({ form: 'range', interval: of, place }) as unknown as Bound;

const points = Array.from({ length: 13 }, (_, index) => exact(index, 2));
const only = (value: (typeof points)[number]): Interval => ({
  low: { value, open: false },
  high: { value, open: false },
});
const from = (value: number): Interval => ({ low: { value: exact(value), open: false } });
const upTo = (value: number): Interval => ({ high: { value: exact(value), open: false } });

test('a mask has the regions whose values lie in the interval', () => {
  fc.assert(
    fc.property(fc.array(interval, { minLength: 1, maxLength: 4 }), (intervals) => {
      const regions = GaugeRegions.of(intervals.map(bound));
      for (const value of points) {
        const region = regions.touching([only(value)]);
        expect(isSingle(region)).toBe(true);
        for (const one of intervals) {
          expect(((regions.maskOf(one) as number) & region) !== 0).toBe(containsValue(one, value));
        }
      }
    }),
    { seed: 1, numRuns: 300 },
  );
});

test('intervals of which the ends lie alike have the same masks', () => {
  const few = fc.array(interval, { minLength: 1, maxLength: 3 });
  let alike = 0;
  fc.assert(
    fc.property(few, few, (some, others) => {
      const [one, other] = [some, others].map((each) => GaugeRegions.of(each.map(bound))) as [
        GaugeRegions,
        GaugeRegions,
      ];
      if (one.order !== other.order) return;
      alike++;
      expect(others.map((each) => other.maskOf(each))).toEqual(some.map((each) => one.maskOf(each)));
      expect(others.map(isEmpty)).toEqual(some.map(isEmpty));
    }),
    { seed: 1, numRuns: 10_000 },
  );
  expect(alike).toBeGreaterThan(200);
});

test('ends that grow and keep their order lie alike', () => {
  const grown = ({ value, open }: IntervalEnd): IntervalEnd => ({ value: value.mul(value), open });
  const larger = ({ low, high }: Interval): Interval => ({
    ...(low && { low: grown(low) }),
    ...(high && { high: grown(high) }),
  });
  fc.assert(
    fc.property(fc.array(interval), (intervals) => {
      const { order } = GaugeRegions.of(intervals.map(bound));
      expect(GaugeRegions.of(intervals.map(larger).map(bound)).order).toBe(order);
    }),
    { seed: 1, numRuns: 300 },
  );
});

test('no more regions than the bounds tell apart', () => {
  expect(GaugeRegions.of([]).all).toBe(0b1);
  expect(GaugeRegions.of([from(2), from(2)].map(bound)).all).toBe(0b11);
  expect(GaugeRegions.of([from(2), { high: { value: exact(2), open: true } }].map(bound)).all).toBe(0b11);
  expect(GaugeRegions.of([from(2), upTo(2)].map(bound)).all).toBe(0b111);
});

test('a set of regions is the stretches that it covers', () => {
  const regions = GaugeRegions.of([from(2), upTo(2), from(4)].map(bound));
  expect(regions.stretchesOf(0b1111)).toEqual([{}]);
  expect(regions.stretchesOf(0b0110)).toEqual([{ ...from(2), high: { value: exact(4), open: true } }]);
  expect(regions.stretchesOf(0b1010)).toEqual([only(exact(2)), from(4)]);
  expect(regions.stretchesOf(0)).toEqual([]);
});

test('regions of which something lies in a stretch', () => {
  const regions = GaugeRegions.of([from(2), from(4)].map(bound));
  expect(regions.touching([from(3)])).toBe(0b110);
  expect(regions.touching([{ low: { value: exact(1), open: false }, high: { value: exact(2), open: true } }])).toBe(
    0b001,
  );
  expect(regions.touching([upTo(1), from(5)])).toBe(0b101);
});

test('a bound between the cuts is not known', () => {
  const regions = GaugeRegions.of([bound(from(2))]);
  expect(regions.maskOf(from(3))).toBeUndefined();
  expect(regions.maskOf({ high: { value: exact(2), open: true } })).toBe(0b01);
});

test('thirty cuts are all that a mask holds; those named last are not known', () => {
  const regions = GaugeRegions.of(Array.from({ length: 32 }, (_, value) => bound(from(32 - value))));
  expect(regions.all).toBe(2 ** 31 - 1);
  expect(regions.maskOf(from(32))).toBe(2 ** 30);
  expect(regions.maskOf(from(3))).toBe(2 ** 31 - 2);
  expect(regions.maskOf(from(2))).toBeUndefined();
});
