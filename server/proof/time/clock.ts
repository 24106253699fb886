import type { Ticks } from '../../flow/time.ts';

/**
 * The time since an event, in ticks, as the least or the most that it can be. Beside other lanes a clock also keeps how long
 * after the fork its event was, for when the lanes come together at the end of the longest.
 */
export interface Clock {
  readonly since: number;
  /** For each `together` that the path is in, outermost first: the event's time after its fork (before it: negative). */
  readonly afterFork: readonly number[];
}

type Side = 'least' | 'most';

/** An event happens now, in lanes that have been at it so long. A least clock must think it as late after the fork as it can be, a most clock as early. */
export function startClock(side: Side, lanes: readonly Ticks[]): Clock {
  return { since: 0, afterFork: lanes.map((lane) => (side === 'least' ? lane.most : lane.least)) };
}

export function elapse(clock: Clock, ticks: number): Clock {
  return ticks === 0 ? clock : { ...clock, since: clock.since + ticks };
}

export function forkClock(clock: Clock): Clock {
  return { ...clock, afterFork: [...clock.afterFork, -clock.since] };
}

/** The other lanes take `others` from the fork; the path goes on when they too are at their ends. */
export function joinClock(clock: Clock, others: number): Clock {
  const event = clock.afterFork.at(-1) ?? 0;
  const sinceByOthers = others === Number.POSITIVE_INFINITY ? others : others - event;
  return { since: Math.max(clock.since, sinceByOthers), afterFork: clock.afterFork.slice(0, -1) };
}

/** It has become known that the event is at least (for a least clock) or at most `since` ago. */
export function narrowedClock(side: Side, clock: Clock, since: number, lanes: readonly Ticks[]): Clock {
  const [nearer, other] = side === 'least' ? [Math.max, Math.min] : [Math.min, Math.max];
  const { afterFork } = startClock(side, lanes);
  return {
    since: nearer(clock.since, since),
    afterFork: clock.afterFork.map((event, depth) => other(event, (afterFork[depth] ?? 0) - since)),
  };
}

/** The clock that allows what either allows. */
export function widerClock(side: Side, a: Clock, b: Clock): Clock {
  const [first, other] = side === 'least' ? [Math.min, Math.max] : [Math.max, Math.min];
  return {
    since: first(a.since, b.since),
    afterFork: a.afterFork.map((event, depth) => other(event, b.afterFork[depth] ?? event)),
  };
}

export function sameClock(a: Clock | undefined, b: Clock | undefined): boolean {
  if (!a || !b) return a === b;
  return a.since === b.since && a.afterFork.every((event, depth) => event === b.afterFork[depth]);
}
