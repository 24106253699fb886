/** Where sentences end, held against the segmenter of the runtime, which is not made for a text that is one sentence. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sentencesIn } from '../../../server/findings/support/sentences.ts';

const segmenter = new Intl.Segmenter('en', { granularity: 'sentence' });
const bySegmenter = (text: string) => [...segmenter.segment(text)].map(({ segment }) => segment.trim()).filter(Boolean);

const pieces = [
  'a',
  'B',
  ' ',
  '5',
  '٣',
  '.',
  '．',
  '․',
  '!',
  '?',
  '…',
  '。',
  '؟',
  ',',
  ':',
  ')',
  '"',
  '”',
  '\n',
  '\u2028',
  '°C',
  '{x}',
];

test('a text has the sentences that the segmenter finds', () => {
  const texts = fc.array(fc.constantFrom(...pieces), { maxLength: 10 }).map((signs) => signs.join(''));
  fc.assert(
    fc.property(texts, (text) => {
      expect(sentencesIn(text)).toEqual(bySegmenter(text));
    }),
    { numRuns: 5000 },
  );
});

test.each([
  ['Close the valve.', 1],
  ['Let it run for 5.5 min', 1],
  ['Is it dry? Close the lid.', 2],
  ['Stop!5 s later look', 2],
])('%s', (text, count) => {
  expect(sentencesIn(text)).toHaveLength(count);
});
