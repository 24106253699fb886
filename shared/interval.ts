/** Stretches of numbers with open and closed ends, as sets: exact, and knowing nothing of units. */
import type { Exact } from './exact.ts';

export interface IntervalEnd {
  readonly value: Exact;
  /** The value itself is left out. */
  readonly open: boolean;
}

/** A stretch of numbers; an absent end is free. */
export interface Interval {
  readonly low?: IntervalEnd;
  readonly high?: IntervalEnd;
}

export const everything: Interval = {};

export function interval(low?: Exact, high?: Exact): Interval {
  return { ...(low && { low: { value: low, open: false } }), ...(high && { high: { value: high, open: false } }) };
}

/** No number lies in it. */
export function isEmpty({ low, high }: Interval): boolean {
  if (low === undefined || high === undefined) return false;
  const order = low.value.compare(high.value);
  return order > 0 || (order === 0 && (low.open || high.open));
}

export function containsValue({ low, high }: Interval, value: Exact): boolean {
  return !isBelow(value, low) && !isAbove(value, high);
}

function isBelow(value: Exact, low: IntervalEnd | undefined): boolean {
  if (low === undefined) return false;
  const order = value.compare(low.value);
  return order < 0 || (order === 0 && low.open);
}

function isAbove(value: Exact, high: IntervalEnd | undefined): boolean {
  if (high === undefined) return false;
  const order = value.compare(high.value);
  return order > 0 || (order === 0 && high.open);
}

/** Orders lower ends by where their stretch begins: free first, closed before open at the same value. */
export function compareLows(a: IntervalEnd | undefined, b: IntervalEnd | undefined): number {
  if (a === undefined || b === undefined) return Number(a !== undefined) - Number(b !== undefined);
  return a.value.compare(b.value) || Number(a.open) - Number(b.open);
}

/** Orders upper ends by where their stretch ends: open before closed at the same value, free last. */
export function compareHighs(a: IntervalEnd | undefined, b: IntervalEnd | undefined): number {
  if (a === undefined || b === undefined) return Number(a === undefined) - Number(b === undefined);
  return a.value.compare(b.value) || Number(b.open) - Number(a.open);
}

export function intersection(a: Interval, b: Interval): Interval {
  const low = compareLows(a.low, b.low) >= 0 ? a.low : b.low;
  const high = compareHighs(a.high, b.high) <= 0 ? a.high : b.high;
  return { ...(low && { low }), ...(high && { high }) };
}

/** Every number of `inner` lies in `outer`. */
export function isWithin(inner: Interval, outer: Interval): boolean {
  return isEmpty(inner) || (compareLows(inner.low, outer.low) >= 0 && compareHighs(inner.high, outer.high) <= 0);
}

export function equalIntervals(a: Interval, b: Interval): boolean {
  return compareLows(a.low, b.low) === 0 && compareHighs(a.high, b.high) === 0;
}

/** What of `whole` none of the parts holds, in rising order. */
export function leftOut(whole: Interval, parts: readonly Interval[]): readonly Interval[] {
  const rising = parts.filter((part) => !isEmpty(part)).sort((a, b) => compareLows(a.low, b.low));
  const gaps: Interval[] = [];
  /** Where the next gap begins, if there is one: behind all parts so far. */
  let next: Interval['low'];
  for (const { low, high } of rising) {
    if (low) gaps.push({ ...(next && { low: next }), high: turned(low) });
    if (!high) return within(whole, gaps);
    if (compareLows(next, turned(high)) < 0) next = turned(high);
  }
  return within(whole, [...gaps, next ? { low: next } : everything]);
}

function within(whole: Interval, pieces: readonly Interval[]): Interval[] {
  return pieces.map((piece) => intersection(whole, piece)).filter((piece) => !isEmpty(piece));
}

/** The end of the stretch that begins there, or the beginning of the one that ends there. */
export function turned(end: IntervalEnd): IntervalEnd {
  return { value: end.value, open: !end.open };
}

/** What the sum of a number of the one and a number of the other may be. */
export function sumOf(a: Interval, b: Interval): Interval {
  const low = endSum(a.low, b.low);
  const high = endSum(a.high, b.high);
  return { ...(low && { low }), ...(high && { high }) };
}

/** What is left of a number of the first when a number of the second is taken away. */
export function differenceOf(a: Interval, { low, high }: Interval): Interval {
  return sumOf(a, { ...(high && { low: negated(high) }), ...(low && { high: negated(low) }) });
}

function endSum(a: IntervalEnd | undefined, b: IntervalEnd | undefined): IntervalEnd | undefined {
  return a && b && { value: a.value.add(b.value), open: a.open || b.open };
}

function negated(end: IntervalEnd): IntervalEnd {
  return { value: end.value.neg(), open: end.open };
}
