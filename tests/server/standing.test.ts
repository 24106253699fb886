/** What was told of one version of a text, where it stands in the next. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { standingIn } from '../../server/conclusions.ts';
import type { Finding } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';

const findingAt = (place: Place, ...path: readonly Place[]): Finding => ({
  code: 'prose.vague',
  level: 'warning',
  message: 'Say how long.',
  place,
  path: path.map((at) => ({ place: at, text: 'here' })),
  fixes: [{ title: 'Take it out', edits: [{ place, newText: '' }] }],
});

const letters = fc.string({ unit: fc.constantFrom('a', 'b', '\n'), maxLength: 12 });
const edits = fc.record({ head: letters, gone: letters, put: letters, tail: letters });

function sameFrom(at: number, most: number, isSame: (at: number) => boolean): number {
  return at < most && isSame(at) ? sameFrom(at + 1, most, isSame) : at;
}

test('it stands at the same words, or round the change, or nowhere', () => {
  fc.assert(
    fc.property(edits, fc.nat(), fc.nat(), ({ head, gone, put, tail }, from, length) => {
      const [before, now] = [head + gone + tail, head + put + tail];
      const start = from % (before.length + 1);
      const end = start + (length % (before.length - start + 1));
      const [found] = standingIn(now, 'a.card', before, [findingAt({ file: 'a.card', start, end })]);
      if (!found) {
        const shorter = Math.min(before.length, now.length);
        const ahead = sameFrom(0, shorter, (at) => before[at] === now[at]);
        const behind = sameFrom(0, shorter - ahead, (at) => before.at(-1 - at) === now.at(-1 - at));
        expect(end, 'the change is behind it').toBeGreaterThan(ahead);
        expect(start, 'the change is before it').toBeLessThan(before.length - behind);
        return;
      }
      const { place } = found;
      const isSame = {
        before: now.slice(0, place.start) === before.slice(0, start),
        words: now.slice(place.start, place.end) === before.slice(start, end),
        behind: now.slice(place.end) === before.slice(end),
      };
      expect(Object.values(isSame).filter(Boolean).length, JSON.stringify(isSame)).toBeGreaterThanOrEqual(2);
    }),
  );
});

test('its path goes along, what stands in other files stays, and its fixes are not offered', () => {
  const before = 'one two three';
  const place = { file: 'a.card', start: 8, end: 13 };
  const path = [
    { file: 'a.card', start: 0, end: 3 },
    { file: 'a.card', start: 5, end: 9 },
    { file: 'b.card', start: 8, end: 13 },
  ];
  const [found] = standingIn('one and a two three', 'a.card', before, [findingAt(place, ...path)]);
  expect(found?.place).toEqual({ file: 'a.card', start: 14, end: 19 });
  expect(found?.path.map(({ place: at }) => at.start)).toEqual([0, 11, 8]);
  expect(found?.fixes).toEqual([]);
  expect(standingIn('one xyz three', 'a.card', before, [findingAt({ file: 'a.card', start: 5, end: 9 })])).toEqual([]);
});
