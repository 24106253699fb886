import { describe, expect, it } from 'vitest';
import { keepWalk, nearest, startWalk, walkTo } from '../../../client/preview/walk.ts';
import type { PreviewFinding } from '../../../shared/protocol.ts';

const uri = 'file:///rinse.card';

function finding(start: number, message = 'It is not fed.'): PreviewFinding {
  const path = [{ uri, start: 10, end: 12, text: 'the reading fails' }];
  return { code: 'supply.not-fed', level: 'error', message, place: { uri, start, end: start + 5 }, path };
}

describe('a walk', () => {
  it('ends at the finding itself', () => {
    expect(startWalk(finding(40)).places.map(({ start, text }) => [start, text])).toEqual([
      [10, 'the reading fails'],
      [40, 'It is not fed.'],
    ]);
    expect(startWalk(finding(10)).places).toHaveLength(1);
  });

  it('stays between its ends', () => {
    const walk = startWalk(finding(40));
    expect(walkTo(walk, -1).at).toBe(0);
    expect(walkTo(walk, 7).at).toBe(1);
  });

  it('is kept where the finding has moved, and ends where it is mended', () => {
    const walk = walkTo(startWalk(finding(40)), 1);
    expect(keepWalk(walk, [finding(48)])).toMatchObject({ at: 1, finding: { place: { start: 48 } } });
    expect(keepWalk(walk, [finding(44, 'Something else is not fed.')])).toMatchObject({
      finding: { place: { start: 44 } },
    });
    expect(keepWalk(walk, [])).toBeUndefined();
  });
});

it('finds the finding that a cursor is in before one that only begins nearer', () => {
  const long = { ...finding(0), place: { uri, start: 0, end: 100 } };
  expect(nearest([finding(92), long], 90)).toBe(long);
  expect(nearest([], 3)).toBeUndefined();
});
