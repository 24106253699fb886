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
