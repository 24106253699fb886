/** Which admonition a hazard that began without one comes to later. */
import { expect, test } from 'vitest';
import { admonitionAfter } from '../../../server/proof/questions/announcements.ts';
import type { Node, Way } from '../../../server/proof/slicing/question.ts';
import type { Place } from '../../../shared/text.ts';

const [start, hot, cold, near, far] = [0, 1, 2, 3, 4].map(
  (id): Node => ({ id, point: id, state: [], parent: undefined, move: undefined, blended: false }),
) as [Node, Node, Node, Node, Node];
const at = (offset: number): Place => ({ file: 'a.card', start: offset, end: offset + 1 });
const way = (moveIndex: number, to: Node) => ({ moveIndex, to }) as Way;
const begun = [{ node: start, moveIndex: 1 }];

test('only the way by which the hazard began is followed', () => {
  const ways = [[way(1, hot), way(1, near), way(2, cold)]];
  const shown = new Map([
    [cold, at(20)],
    [near, at(30)],
  ]);
  const isThere = (node: Node) => node !== near;
  expect(admonitionAfter(begun, shown, ways, isThere)).toBeUndefined();
  expect(admonitionAfter(begun, shown.set(hot, at(10)), ways, isThere)).toEqual(at(10));
});

test('of two admonitions as near as each other, the one on the way that was found first', () => {
  const ways = [[way(1, hot)], [way(2, near), way(3, far)]];
  const shown = new Map([
    [near, at(10)],
    [far, at(20)],
  ]);
  expect(admonitionAfter(begun, shown, ways, () => true)).toEqual(at(10));
});
