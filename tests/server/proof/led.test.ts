/** Lanes with a time each: they begin, go on, and come together. */
import { expect, test } from 'vitest';
import { noTicks, type Ticks } from '../../../server/flow/time.ts';
import {
  aroundAll,
  eitherHands,
  elapsed,
  forked,
  type Hands,
  joined,
  left,
  onlyHands,
  openedHands,
  sameHands,
} from '../../../server/proof/exploring/hands.ts';
import { isLed, ledInward, ledTimes, reachedBeside } from '../../../server/proof/time/led.ts';

const exactly = (time: number) => ({ least: time, most: time });
const endless = Number.POSITIVE_INFINITY;
const outside = onlyHands();
const handsFor = (time: Ticks): Hands => ({ ...outside, ...time });
/** The times of the lanes in it that are followed. */
const lanesIn = (hands: Hands | undefined) =>
  hands?.within?.lanes.slice(0, -1).map(({ least, most }) => ({ least, most }));

/** Two lanes, the second one timed; in that, after 10, again two, of which the first is timed. */
const outer = elapsed(forked(outside, [], 2, 1), [1], exactly(10));
const nested = elapsed(elapsed(forked(outer, [1], 2, 0), [1, 0], { least: 3, most: 4 }), [1, 1], exactly(7));

test('time passes in one lane, and around all lanes none is kept', () => {
  for (const time of [1, 5]) expect(aroundAll(elapsed(outside, [], exactly(time)))).toEqual(outside);
  expect(lanesIn(elapsed(outer, [0], exactly(5)))).toEqual([exactly(5), exactly(10)]);
  expect(lanesIn(elapsed(outer, [1], exactly(5)))).toEqual([noTicks, exactly(15)]);
  expect(elapsed(outer, [0], noTicks)).toBe(outer);
});

test('the lane that is timed is led all the way down', () => {
  expect(isLed(nested, [])).toBe(true);
  expect(isLed(nested, [1])).toBe(true);
  expect(isLed(nested, [0])).toBe(false);
  expect(isLed(nested, [1, 0])).toBe(true);
  expect(isLed(nested, [1, 1])).toBe(false);
  expect(isLed(forked(outside, [], 2, -1), [0])).toBe(false);
});

test('around the path that is timed: each block, and how long it has been in it', () => {
  expect(ledInward(nested, []).map(({ led }) => led)).toEqual([1, 0]);
  expect(ledInward(nested, [1]).map(({ led }) => led)).toEqual([0]);
  expect(ledInward(forked(outside, [], 2, -1), []).map(({ led }) => led)).toEqual([-1]);
  expect(ledTimes(nested)).toEqual([
    { least: 13, most: 14 },
    { least: 3, most: 4 },
  ]);
  expect(ledTimes(outside)).toEqual([]);
  expect(ledTimes(forked(outside, [], 2, -1))).toEqual([]);
});

test('lanes come together at the end of the longest', () => {
  expect(lanesIn(joined(nested, [1], noTicks))).toEqual([noTicks, exactly(17)]);
  expect(lanesIn(joined(nested, [1], { least: 9, most: 20 }))).toEqual([noTicks, { least: 19, most: 30 }]);
  expect(joined(nested, [], noTicks)).toEqual(handsFor(exactly(17)));
});

test('a lane that leaves the others goes on in its own time, and no sooner than they have come', () => {
  const late = elapsed(nested, [1, 0], { least: 0, most: 40 });
  expect(lanesIn(left(nested, [1, 0], 1))).toEqual([noTicks, exactly(17)]);
  expect(lanesIn(left(late, [1, 0], 1))).toEqual([noTicks, { least: 17, most: 54 }]);
  expect(left(nested, [1, 0], 2)).toEqual(handsFor(exactly(17)));
});

test('how far the others are, with the lanes that they are in', () => {
  const [around, within] = ledInward(nested, []);
  expect(around && reachedBeside(around)).toEqual(noTicks);
  expect(within && reachedBeside(within)).toEqual(exactly(7));
  const other = elapsed(forked(elapsed(outer, [0], exactly(2)), [0], 2, -1), [0, 1], exactly(30));
  expect(ledInward(other, []).map(reachedBeside)).toEqual([exactly(32)]);
});

test('the wider of two allows what either allows', () => {
  const wider = eitherHands(nested, elapsed(nested, [1, 1], { least: 0, most: 2 }));
  expect(ledInward(wider, [1]).map(reachedBeside)).toEqual([{ least: 7, most: 9 }]);
  expect(eitherHands(handsFor(exactly(5)), handsFor({ least: 4, most: 6 }))).toEqual(handsFor({ least: 4, most: 6 }));
});

test('lanes are the same where all their times are', () => {
  expect(sameHands(nested, eitherHands(nested, nested))).toBe(true);
  expect(sameHands(nested, elapsed(nested, [1, 1], { least: 0, most: 1 }))).toBe(false);
  expect(sameHands(nested, elapsed(nested, [0], { least: 1, most: 1 }))).toBe(false);
  expect(sameHands(handsFor(exactly(1)), handsFor({ least: 0, most: 1 }))).toBe(false);
  expect(sameHands(handsFor(exactly(1)), undefined)).toBe(false);
});

test('of lanes what goes on growing is left open, and nothing else', () => {
  const longer = elapsed(nested, [1, 1], { least: 0, most: 1 });
  expect(lanesIn(openedHands(nested, longer).within?.lanes[1])).toEqual([
    { least: 3, most: 4 },
    { least: 7, most: endless },
  ]);
  expect(openedHands(handsFor(exactly(5)), handsFor({ least: 4, most: 5 }))).toEqual(handsFor({ least: 0, most: 5 }));
  const since = (least: number) => onlyHands([{ least, most: 9 }]);
  expect(openedHands(since(5), since(3))).toEqual(since(0));
  expect(openedHands(since(0), since(-2))).toEqual(since(-endless));
});
