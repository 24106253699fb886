import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isInside, numberIn } from '../../client/work-copy/readings.ts';
import { longestRun, restUntil, type Use } from '../../client/work-copy/rests.ts';
import type { JobDuty } from '../../shared/job.ts';

const longest: JobDuty = { type: 'longest', limit: 30, rest: 60 };
const three: JobDuty = { type: 'times-then-rest', times: 3, rest: 1800 };
const window: JobDuty = { type: 'times-in-window', times: 2, window: 100 };

describe('when the next run may begin', () => {
  test('at once, where nothing has run', () => {
    expect(restUntil([longest, three, window], [])).toBeUndefined();
  });
  test('after the rest that each run asks for', () => {
    expect(restUntil([longest], [{ from: 0, to: 25 }])).toBe(85);
  });
  test('after the long rest when the count is full, and not before', () => {
    const uses = [
      { from: 0, to: 25 },
      { from: 100, to: 125 },
    ];
    expect(restUntil([three], uses)).toBeUndefined();
    expect(restUntil([longest, three], [...uses, { from: 200, to: 225 }])).toBe(225 + 1800);
  });
  test('a long rest begins the count anew', () => {
    expect(
      restUntil(
        [three],
        [
          { from: 0, to: 25 },
          { from: 100, to: 125 },
          { from: 125 + 1800, to: 1950 },
        ],
      ),
    ).toBeUndefined();
    expect(
      restUntil(
        [three],
        [
          { from: 0, to: 25 },
          { from: 100, to: 125 },
          { from: 124 + 1800, to: 1950 },
        ],
      ),
    ).toBe(1950 + 1800);
  });
  test('a window counts from the start of the run that falls out of it', () => {
    expect(restUntil([window], [{ from: 0, to: 5 }])).toBeUndefined();
    expect(
      restUntil(
        [window],
        [
          { from: 0, to: 5 },
          { from: 40, to: 45 },
        ],
      ),
    ).toBe(100);
  });
  test('whoever waits so long keeps every duty', () => {
    fc.assert(
      fc.property(fc.array(fc.record({ late: fc.nat(200), length: fc.nat(30) }), { maxLength: 12 }), (plan) => {
        const uses: Use[] = [];
        let now = 0;
        for (const { late, length } of plan) {
          const from = Math.max(now, restUntil([longest, window], uses) ?? 0) + late;
          uses.push({ from, to: from + length });
          now = from + length;
        }
        uses.forEach((use, index) => {
          if (index > 0) expect(use.from - (uses[index - 1]?.to ?? 0)).toBeGreaterThanOrEqual(60);
          if (index > 1) expect(use.from - (uses[index - 2]?.from ?? 0)).toBeGreaterThanOrEqual(100);
        });
      }),
    );
  });
});

test('the shortest of several limits counts', () => {
  expect(longestRun([longest, { type: 'longest', limit: 20 }, three])).toBe(20);
  expect(longestRun([three])).toBeUndefined();
});

describe('readings', () => {
  test.each([
    ['24.5', '24.5'],
    ['24,5', '24.5'],
    [' -3 ', '-3'],
    ['−3', '-3'],
    ['0', '0'],
  ])('%j is a number', (text, value) => {
    expect(numberIn(text)?.toString()).toBe(value);
  });
  test.each(['', 'a', '1e9', '1.2.3', '24 V', 'Infinity', '0x10', '1'.repeat(40)])('%j is none', (text) => {
    expect(numberIn(text)).toBeUndefined();
  });
  test('are compared exactly, at the very end of a limit too', () => {
    const inside = (text: string, ends: Parameters<typeof isInside>[1]) => {
      const value = numberIn(text);
      return value && isInside(value, ends);
    };
    expect(inside('0.3', { low: '0.3' })).toBe(true);
    expect(inside('0.29999999999999', { low: '0.3' })).toBe(false);
    expect(inside('0.3', { low: '0.3', lowOpen: true })).toBe(false);
    expect(inside('60', { low: '40', high: '60' })).toBe(true);
    expect(inside('60', { high: '60', highOpen: true })).toBe(false);
    expect(inside('5', {})).toBe(true);
  });
});
