/** Times, and the least and the most between two points. */
import { expect, test } from 'vitest';
import type { Happening, Move } from '../../../server/flow/graph.ts';
import { seconds, ticks, ticksOf } from '../../../server/flow/time.ts';
import { timeBetween, timesFrom } from '../../../server/flow/time-between.ts';
import { exact } from '../../../shared/exact.ts';

const never = Number.POSITIVE_INFINITY;
const place = { file: 'a.card', start: 0, end: 0 };

/** A move that takes so long at the least and at the most. */
function move(from: number, to: number, least: number, most = least, happening: Happening = { type: 'pass' }): Move {
  return { from, to, happening, time: { least, most }, place, statement: place, roles: [] };
}

test('a time is whole microseconds, and exact again', () => {
  expect(ticks(exact(3, 2))).toBe(1_500_000);
  expect(ticks(exact(1, 3_000_000))).toBe(0);
  expect(seconds(1_500_000).equals(exact(3, 2))).toBe(true);
});

test('what has no time takes none; what has no end takes any', () => {
  expect(ticksOf({ least: exact(2), most: exact(3) })).toEqual({ least: 2e6, most: 3e6 });
  expect(ticksOf({ least: exact(2) })).toEqual({ least: 2e6, most: never });
});

test('the least and the most of all ways', () => {
  const moves = [move(0, 1, 1, 2), move(0, 2, 5, 9), move(1, 3, 10, 20), move(2, 3, 3, 4)];
  expect(timeBetween(moves, 0, 3)).toEqual({ least: 8, most: 22 });
  expect(timeBetween(moves, 1, 3)).toEqual({ least: 10, most: 20 });
  expect(timeBetween(moves, 3, 3)).toEqual({ least: 0, most: 0 });
  expect(timeBetween(moves, 3, 0)).toBeUndefined();
});

test('ways that lead elsewhere do not count, nor what comes after', () => {
  const moves = [move(0, 1, 1), move(0, 2, 100), move(2, 2, 5), move(1, 3, 7), move(3, 4, 50), move(3, 0, 50)];
  expect(timeBetween(moves, 0, 3)).toEqual({ least: 8, most: 8 });
});

test('a circle that takes time has no most; one that takes none, or a fixed least, adds nothing', () => {
  expect(timeBetween([move(0, 1, 2), move(1, 0, 3), move(1, 2, 4)], 0, 2)).toEqual({ least: 6, most: never });
  expect(timeBetween([move(0, 1, 2), move(1, 0, 0), move(1, 2, 4)], 0, 2)).toEqual({ least: 6, most: never });
  expect(timeBetween([move(0, 1, 2), move(1, 1, 0), move(1, 2, 4)], 0, 2)).toEqual({ least: 6, most: 6 });
});

/** Rounds of `time`, left when `times` are done, or, where they are not counted, after any. */
function loop(id: number, time: number, times: number, counted: boolean, at = 0): Move[] {
  return [
    move(at, at + 1, 0, 0, { type: 'enter-loop', loop: id }),
    move(at + 1, at + 2, time),
    move(at + 2, at + 1, 0, 0, { type: 'again', loop: id, times }),
    move(at + 2, at + 3, 0, 0, counted ? { type: 'leave-loop', loop: id, times } : { type: 'leave-loop', loop: id }),
  ];
}

test('rounds are counted', () => {
  expect(timeBetween(loop(0, 7, 3, true), 0, 3)).toEqual({ least: 21, most: 21 });
  expect(timeBetween(loop(0, 7, 3, false), 0, 3)).toEqual({ least: 7, most: 21 });
  expect(timeBetween(loop(0, 7, 1, true), 0, 3)).toEqual({ least: 7, most: 7 });
});

test('a loop in a loop, and one after the other, count for themselves', () => {
  const outer = [
    move(10, 11, 1, 1, { type: 'enter-loop', loop: 1 }),
    move(11, 0, 0),
    ...loop(0, 7, 2, true),
    move(3, 12, 100),
    move(12, 11, 0, 0, { type: 'again', loop: 1, times: 3 }),
    move(12, 13, 0, 0, { type: 'leave-loop', loop: 1, times: 3 }),
  ];
  expect(timeBetween(outer, 10, 13)).toEqual({ least: 343, most: 343 });
  const both = [...loop(0, 7, 2, true), ...loop(1, 5, 3, false, 3)];
  expect(timeBetween(both, 0, 6)).toEqual({ least: 19, most: 29 });
});

test('a jump into the next round from outside of the count is the first', () => {
  expect(timeBetween(loop(0, 7, 2, true), 1, 3)).toEqual({ least: 14, most: 14 });
  expect(timeBetween(loop(0, 7, 1, true), 1, 3)).toEqual({ least: 7, most: 7 });
});

test('the times to every point at once, from the nearest of several', () => {
  const moves = [move(0, 1, 1, 2), move(0, 2, 5, 9), move(1, 3, 10, 20), move(2, 3, 3, 4)];
  const times = (...from: number[]) =>
    Object.fromEntries([...timesFrom(moves, from)].map(([point, { least, most }]) => [point, [least, most]]));
  expect(times(0)).toMatchObject({ 0: [0, 0], 1: [1, 2], 2: [5, 9], 3: [8, 22] });
  expect(times(1, 2)).toMatchObject({ 1: [0, 0], 2: [0, 0], 3: [3, 20] });
  expect(times()).not.toHaveProperty('0');
});

test('to a point in a loop, of its first round', () => {
  const times = timesFrom(loop(0, 7, 3, true), [0]);
  expect(times.get(1)).toMatchObject({ least: 0, most: 0 });
  expect(times.get(2)).toMatchObject({ least: 7, most: 7 });
});

test('of more rounds than anybody goes through nothing is known', () => {
  const outer = [
    move(10, 11, 1, 1, { type: 'enter-loop', loop: 1 }),
    move(11, 0, 0),
    ...loop(0, 7, 1_000, true),
    move(3, 11, 0, 0, { type: 'again', loop: 1, times: 1_000 }),
    move(3, 13, 0, 0, { type: 'leave-loop', loop: 1, times: 1_000 }),
  ];
  expect(timeBetween(outer, 10, 13)).toEqual({ least: 0, most: never });
  expect(timesFrom(outer, [10]).size).toBe(0);
});
