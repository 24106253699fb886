/** Clocks beside lanes: the event of a clock may lie before the fork, in the lane, or both may be thought of at once. */
import { expect, test } from 'vitest';
import {
  elapse,
  forkClock,
  joinClock,
  narrowedClock,
  sameClock,
  startClock,
  widerClock,
} from '../../../server/proof/time/clock.ts';
import { worstStarts } from '../../../server/proof/time/duty-times.ts';

const never = Number.POSITIVE_INFINITY;

test('a clock runs', () => {
  expect(elapse(elapse(startClock('least', []), 3), 4)).toEqual({ since: 7, afterFork: [] });
  const clock = startClock('most', []);
  expect(elapse(clock, 0)).toBe(clock);
});

test('an event before the fork: the longer of the lanes counts from the fork', () => {
  const forked = forkClock(elapse(startClock('least', []), 10));
  expect(forked).toEqual({ since: 10, afterFork: [-10] });
  expect(joinClock(elapse(forked, 5), 30)).toEqual({ since: 40, afterFork: [] });
  expect(joinClock(elapse(forked, 50), 30)).toEqual({ since: 60, afterFork: [] });
});

test('an event in the lane: the others have gone on since the fork', () => {
  const lanes = [{ least: 20, most: 25 }];
  expect(joinClock(elapse(startClock('least', lanes), 1), 60)).toEqual({ since: 35, afterFork: [] });
  expect(joinClock(elapse(startClock('most', lanes), 1), 60)).toEqual({ since: 40, afterFork: [] });
  expect(joinClock(elapse(startClock('most', lanes), 1), never)).toEqual({ since: never, afterFork: [] });
});

test('lanes in lanes: the innermost comes together first', () => {
  const clock = startClock('least', [
    { least: 100, most: 100 },
    { least: 7, most: 7 },
  ]);
  expect(joinClock(clock, 50)).toEqual({ since: 43, afterFork: [100] });
  expect(forkClock({ since: 2, afterFork: [5] })).toEqual({ since: 2, afterFork: [5, -2] });
});

test('the wider of two clocks allows what either allows', () => {
  const a = { since: 5, afterFork: [3, 9] };
  const b = { since: 8, afterFork: [4, 2] };
  expect(widerClock('least', a, b)).toEqual({ since: 5, afterFork: [4, 9] });
  expect(widerClock('most', a, b)).toEqual({ since: 8, afterFork: [3, 2] });
});

test('what becomes known of an event moves it in its lane too', () => {
  const lanes = [{ least: 12, most: 15 }];
  expect(narrowedClock('least', { since: 3, afterFork: [10] }, 8, lanes)).toEqual({ since: 8, afterFork: [7] });
  expect(narrowedClock('most', { since: 30, afterFork: [-20] }, 8, lanes)).toEqual({ since: 8, afterFork: [4] });
});

test('clocks are the same where all of them is', () => {
  const clock = { since: 5, afterFork: [3, 9] };
  expect(sameClock(undefined, undefined)).toBe(true);
  expect(sameClock(clock, undefined)).toBe(false);
  expect(sameClock(undefined, clock)).toBe(false);
  expect(sameClock(clock, { since: 5, afterFork: [3, 9] })).toBe(true);
  expect(sameClock(clock, { since: 6, afterFork: [3, 9] })).toBe(false);
  expect(sameClock(clock, { since: 5, afterFork: [3, 8] })).toBe(false);
});

test('each start within the window keeps how old it was at the last change', () => {
  const clocks = [5, 20, 90].map((ticks) => elapse(startClock('least', []), ticks));
  expect(worstStarts([{ clocks, atChange: [1, 16, 86] }], 60)).toEqual([
    { clocks: clocks.slice(0, 2), atChange: [1, 16] },
  ]);
});
