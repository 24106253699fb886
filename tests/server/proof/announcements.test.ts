/** Which admonition a hazard that began without one comes to later. */
import { expect, test } from 'vitest';
import { Announcements } from '../../../server/proof/questions/announcements.ts';
import type { Node } from '../../../server/proof/slicing/question.ts';
import type { Place } from '../../../shared/text.ts';

const [start, hot, cold, near, far] = [0, 1, 2, 3, 4].map(
  (id): Node => ({ id, point: id, state: [], parent: undefined, move: undefined, blended: false }),
) as [Node, Node, Node, Node, Node];
const at = (offset: number): Place => ({ file: 'a.card', start: offset, end: offset + 1 });

test('only the way by which the hazard began is followed', () => {
  const announcements = new Announcements();
  announcements.begins('drain', { from: start, moveIndex: 1 });
  announcements.way(start, { moveIndex: 1, to: hot, there: true });
  announcements.way(start, { moveIndex: 1, to: near, there: false });
  announcements.way(start, { moveIndex: 2, to: cold, there: true });
  announcements.announced(cold, at(20));
  announcements.announced(near, at(30));
  expect(announcements.after('drain')).toBeUndefined();
  announcements.announced(hot, at(10));
  expect(announcements.after('drain')).toEqual(at(10));
});

test('of two admonitions as near as each other, the one on the way that was found first', () => {
  const announcements = new Announcements();
  announcements.begins('drain', { from: start, moveIndex: 1 });
  announcements.way(start, { moveIndex: 1, to: hot, there: true });
  announcements.way(hot, { moveIndex: 2, to: near, there: true });
  announcements.way(hot, { moveIndex: 3, to: far, there: true });
  announcements.announced(near, at(10));
  announcements.announced(far, at(20));
  expect(announcements.after('drain')).toEqual(at(10));
});
