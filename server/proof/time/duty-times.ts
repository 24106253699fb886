/** What a place keeps of an item with a duty: the worst of every clock, and the ways that gave it. */

import { mostPlacesTold, mostStarts } from '../../flow/limits.ts';
import { type Hands, openedHands, sameHands } from '../exploring/hands.ts';
import type { Way } from '../slicing/question.ts';
import { type Clock, sameClock, widerClock } from './clock.ts';

/** The ways that led here, the last one first. */
export interface Trail {
  readonly way: Way;
  readonly before?: Trail;
}

/** Runs so far, the last one ended the longest ago `rest`; absent while running. */
export interface Count {
  readonly runs: number;
  readonly rest?: Clock;
  readonly trail?: Trail;
}

/** The last starts, the latest first. */
export interface Starts {
  readonly clocks: readonly Clock[];
  /** How old each was when the item last began or ended a run; only where the card asks how long that is ago. */
  readonly atChange?: readonly number[];
  readonly trail?: Trail;
}

export interface Times {
  readonly hands: Hands;
  /** Most time in the state now. */
  readonly running?: Clock;
  /** Least time since it was last in the state; absent where it never was. */
  readonly rest?: Clock;
  /** Least time since the start of a run that may be under way since before the card. */
  readonly underWay?: Clock;
  readonly counts: readonly Count[];
  readonly starts: readonly Starts[];
}

/** Where each count and row of starts comes from: they stand in the same order before and after a move. */
export function withTrails(after: Times, before: Times, way: Way): Times {
  const trail = (from: Count | Starts | undefined): Trail => ({ way, ...(from?.trail && { before: from.trail }) });
  return {
    ...after,
    counts: after.counts.map((count, index) => ({ ...count, trail: trail(before.counts[index]) })),
    starts: after.starts.map((starts, index) => ({ ...starts, trail: trail(before.starts[index]) })),
  };
}

export function waysAlong(trail: Trail | undefined): Way[] {
  const ways: Way[] = [];
  for (let at = trail; at && ways.length < mostPlacesTold; at = at.before) ways.push(at.way);
  return ways.reverse();
}

export function mapClocks(times: Times, least: (clock: Clock) => Clock, most: (clock: Clock) => Clock): Times {
  return {
    ...times,
    running: times.running && most(times.running),
    rest: times.rest && least(times.rest),
    underWay: times.underWay && least(times.underWay),
    counts: times.counts.map((count) => (count.rest ? { runs: count.runs, rest: least(count.rest) } : count)),
    starts: times.starts.map((row) => ({ ...row, clocks: row.clocks.map(least) })),
  };
}

export function eitherClock(side: 'least' | 'most', a: Clock | undefined, b: Clock | undefined): Clock | undefined {
  return a && b ? widerClock(side, a, b) : (a ?? b);
}

/** For each number of runs the shortest rest; a shorter rest is always the worse one. */
export function mergeCounts(known: readonly Count[], arriving: readonly Count[]): Count[] {
  const byRuns = new Map<string, Count>();
  for (const count of [...known, ...arriving]) {
    const key = `${count.runs} ${count.rest ? 'resting' : 'running or new'}`;
    const other = byRuns.get(key);
    byRuns.set(key, other ? worseCount(other, count) : count);
  }
  return [...byRuns.values()];
}

function worseCount(a: Count, b: Count): Count {
  if (!a.rest || !b.rest) return a;
  const { trail } = b.rest.since < a.rest.since ? b : a;
  return { runs: a.runs, rest: widerClock('least', a.rest, b.rest), ...(trail && { trail }) };
}

/** The rows of starts that no other row outdoes: one with as many starts, each as near or nearer. Past some number only the nearest of each is kept. */
export function worstStarts(rows: readonly Starts[], window: number): Starts[] {
  const near = rows.map((row) => withinWindow(row, window));
  const worst = near.filter(
    (row, index) =>
      !near.some((other, at) => at !== index && outdoes(other, row) && (!outdoes(row, other) || at < index)),
  );
  if (worst.length <= mostStarts) return worst;
  const longest = Math.max(...worst.map(({ clocks }) => clocks.length));
  const nearest = Array.from({ length: longest }, (_, index) =>
    worst.flatMap(({ clocks }) => clocks[index] ?? []).reduce((a, b) => widerClock('least', a, b)),
  );
  const atChange =
    worst[0]?.atChange && nearest.map((_, index) => Math.min(...worst.map((row) => ageAtChange(row, index))));
  return [{ ...worst[0], clocks: nearest, ...(atChange && { atChange }) }];
}

function withinWindow(row: Starts, window: number): Starts {
  const clocks = row.clocks.filter((start) => start.since < window);
  return { ...row, clocks, ...(row.atChange && { atChange: row.atChange.slice(0, clocks.length) }) };
}

function ageAtChange({ atChange }: Starts, index: number): number {
  return atChange?.[index] ?? Number.POSITIVE_INFINITY;
}

function outdoes(other: Starts, row: Starts): boolean {
  return row.clocks.every(
    (start, index) =>
      (other.clocks[index]?.since ?? Number.POSITIVE_INFINITY) <= start.since &&
      ageAtChange(other, index) <= ageAtChange(row, index),
  );
}

function startsKey({ clocks, atChange = [] }: Starts): string {
  return [...clocks.map((start) => `${start.since}/${start.afterFork.join('/')}`), ...atChange].join(' ');
}

export function sameTimes(a: Times, b: Times): boolean {
  return (
    sameClock(a.running, b.running) &&
    sameClock(a.rest, b.rest) &&
    sameClock(a.underWay, b.underWay) &&
    sameHands(a.hands, b.hands) &&
    a.counts.length === b.counts.length &&
    a.counts.every(
      (count, index) => count.runs === b.counts[index]?.runs && sameClock(count.rest, b.counts[index]?.rest),
    ) &&
    a.starts.length === b.starts.length &&
    a.starts.every((row, index) => startsKey(row) === startsKey(b.starts[index] as Starts))
  );
}

/** A clock that goes on growing round after round has no end. */
export function withoutEnd(known: Times, times: Times): Times {
  const endless = Number.POSITIVE_INFINITY;
  return {
    ...times,
    running: times.running && { ...times.running, since: endless },
    hands: openedHands(known.hands, times.hands),
  };
}
