/** What has no known end is told with the first thing on the way of which nobody says how long it takes. */
import { expect, test } from 'vitest';
import { findingsOf } from '../../support/check.ts';

const starter = 'item s : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }';
const pathOf = (body: string) => {
  const text = `${starter}\ncard a "A" { number "1" revision "A" crew one "One" ${body} }`;
  const [finding] = findingsOf(text, { only: ['duty.unbounded'] });
  return finding?.path.map(({ text: said, place }) => `${said}: ${text.slice(place.start, place.end)}`);
};

test('the step without a time, also behind a jump', () => {
  expect(
    pathOf(
      'step takes 2 s set s cranking step takes 8 s check "Does it turn?" else go to safe step set s off finish step safe: "Tell the lead." step set s off',
    )?.at(-1),
  ).toBe('nobody says how long this takes: step safe: "Tell the lead."');
});

test('nothing where the card ends with it', () => {
  expect(pathOf('step takes 2 s set s cranking')?.join()).not.toContain('nobody says');
});
