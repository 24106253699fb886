/** Lanes with a time each: they begin, go on, and come together. */
import { expect, test } from 'vitest';
import { noTicks } from '../../../server/flow/time.ts';
import {
  elapseIn,
  fork,
  isLed,
  join,
  laneWithoutEnd,
  ledInward,
  ledTimes,
  outside,
  reachedBeside,
  sameLane,
  widerLane,
} from '../../../server/proof/time/lane-times.ts';

const exactly = (time: number) => ({ least: time, most: time });
const endless = Number.POSITIVE_INFINITY;

/** Two lanes, the second one timed; in that, after 10, again two, of which the first is timed. */
const outer = elapseIn(fork(outside, [], 2, 1), [1], exactly(10));
const nested = elapseIn(elapseIn(fork(outer, [1], 2, 0), [1, 0], { least: 3, most: 4 }), [1, 1], exactly(7));

test('time passes in one lane, and around all lanes none is kept', () => {
  expect(elapseIn(outside, [], exactly(5))).toEqual(outside);
  expect(elapseIn(outer, [0], exactly(5)).within?.lanes).toEqual([exactly(5), exactly(10)]);
  expect(elapseIn(outer, [1], exactly(5)).within?.lanes).toEqual([noTicks, exactly(15)]);
  expect(elapseIn(outer, [0], noTicks)).toBe(outer);
});

test('the lane that is timed is led all the way down', () => {
  expect(isLed(nested, [])).toBe(true);
  expect(isLed(nested, [1])).toBe(true);
  expect(isLed(nested, [0])).toBe(false);
  expect(isLed(nested, [1, 0])).toBe(true);
  expect(isLed(nested, [1, 1])).toBe(false);
  expect(isLed(fork(outside, [], 2, -1), [0])).toBe(false);
});

test('around the path that is timed: each block, and how long it has been in it', () => {
  expect(ledInward(nested, []).map(({ led }) => led)).toEqual([1, 0]);
  expect(ledInward(nested, [1]).map(({ led }) => led)).toEqual([0]);
  expect(ledInward(fork(outside, [], 2, -1), []).map(({ led }) => led)).toEqual([-1]);
  expect(ledTimes(nested)).toEqual([
    { least: 13, most: 14 },
    { least: 3, most: 4 },
  ]);
  expect(ledTimes(outside)).toEqual([]);
  expect(ledTimes(fork(outside, [], 2, -1))).toEqual([]);
});

test('lanes come together at the end of the longest', () => {
  expect(join(nested, [1], noTicks, noTicks).within?.lanes).toEqual([noTicks, exactly(17)]);
  expect(join(nested, [1], { least: 9, most: 20 }, noTicks).within?.lanes).toEqual([noTicks, { least: 19, most: 30 }]);
  expect(join(nested, [1], noTicks, exactly(5)).within?.lanes).toEqual([noTicks, exactly(22)]);
  expect(join(nested, [], noTicks, exactly(5))).toEqual(outside);
});

test('how far the others are, with the lanes that they are in', () => {
  const [around, within] = ledInward(nested, []);
  expect(around && reachedBeside(around)).toEqual(noTicks);
  expect(within && reachedBeside(within)).toEqual(exactly(7));
  const other = elapseIn(fork(elapseIn(outer, [0], exactly(2)), [0], 2, -1), [0, 1], exactly(30));
  expect(ledInward(other, []).map(reachedBeside)).toEqual([exactly(32)]);
});

test('the wider of two allows what either allows', () => {
  const wider = widerLane(nested, elapseIn(nested, [1, 1], { least: 0, most: 2 }));
  expect(ledInward(wider, [1]).map(reachedBeside)).toEqual([{ least: 7, most: 9 }]);
  expect(widerLane({ least: 5, most: 5 }, { least: 4, most: 6 })).toEqual({ least: 4, most: 6 });
});

test('lanes are the same where all their times are', () => {
  expect(sameLane(nested, widerLane(nested, nested))).toBe(true);
  expect(sameLane(nested, elapseIn(nested, [1, 1], { least: 0, most: 1 }))).toBe(false);
  expect(sameLane(nested, elapseIn(nested, [0], { least: 1, most: 1 }))).toBe(false);
  expect(sameLane(exactly(1), { least: 0, most: 1 })).toBe(false);
  expect(sameLane(exactly(1), undefined)).toBe(false);
});

test('lanes that go on growing have no end, and begin when they began', () => {
  expect(laneWithoutEnd(nested).within?.lanes[1]?.within?.lanes).toEqual([
    { least: 3, most: endless },
    { least: 7, most: endless },
  ]);
});
