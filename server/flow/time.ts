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

export function ticksOf(span: TimeSpan): Ticks {
  return { least: ticks(span.least), most: span.most ? ticks(span.most) : Number.POSITIVE_INFINITY };
}

/** A duration finer than a microsecond is rounded to one. */
export function ticks(seconds: Seconds): number {
  return Math.round(seconds.mul(perSecond).valueOf());
}

export function seconds(ticks: number): Seconds {
  return exact(ticks, perSecond);
}

/** One tick over whole seconds is told as those: to a reader, longer than 4 min is 4 min. */
export function secondsTold(ticks: number): Seconds {
  return seconds(ticks % perSecond === 1 ? ticks - 1 : ticks);
}

/** One after the other. */
export function sum(one: Ticks, other: Ticks): Ticks {
  return { least: one.least + other.least, most: one.most + other.most };
}

/** Side by side, until the last is over. */
export function longest(times: readonly Ticks[]): Ticks {
  return {
    least: Math.max(0, ...times.map(({ least }) => least)),
    most: Math.max(0, ...times.map(({ most }) => most)),
  };
}

/** Either of the two. */
export function either(one: Ticks, other: Ticks): Ticks {
  return { least: Math.min(one.least, other.least), most: Math.max(one.most, other.most) };
}
