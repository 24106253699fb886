import type { Seconds, TimeSpan } from '../../shared/card.ts';
import { exact } from '../../shared/exact.ts';

/** Whole microseconds, so that sums are exact and fast; `most` is infinite where nobody knows it. */
export interface Ticks {
  readonly least: number;
  readonly most: number;
}

const perSecond = 1_000_000;

export const noTicks: Ticks = { least: 0, most: 0 };

export const unknownTime: Ticks = { least: 0, most: Number.POSITIVE_INFINITY };

export function ticksOf(span: TimeSpan | undefined): Ticks {
  if (!span) return noTicks;
  return { least: ticks(span.least), most: span.most ? ticks(span.most) : Number.POSITIVE_INFINITY };
}

/** A duration finer than a microsecond is rounded to one. */
export function ticks(seconds: Seconds): number {
  return Math.round(seconds.mul(perSecond).valueOf());
}

export function seconds(ticks: number): Seconds {
  return exact(ticks, perSecond);
}
