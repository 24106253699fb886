/** Readings as they are typed, and whether they are inside a limit. Decimal numbers are compared exactly. */
import { type Exact, exact } from '../../shared/exact.ts';
import type { ReadingEnds } from '../../shared/job.ts';

/** The number in what somebody typed, with a point or a comma; undefined where it is none. */
export function numberIn(text: string): Exact | undefined {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^[+-]?\d{1,15}(\.\d{1,15})?$/.test(plain) ? exact(plain) : undefined;
}

export function isInside(value: Exact, { low, high, lowOpen, highOpen }: ReadingEnds): boolean {
  const fromLow = low === undefined ? 1 : value.compare(exact(low));
  const toHigh = high === undefined ? 1 : exact(high).compare(value);
  return (lowOpen ? fromLow > 0 : fromLow >= 0) && (highOpen ? toHigh > 0 : toHigh >= 0);
}
