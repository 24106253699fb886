/** A shop's own words as a file: a line a word, with what is written instead of one that is not used. */
import { expect, test } from 'vitest';
import { defaultSettings } from '../../shared/settings.ts';
import { mostWords, readWordList, withWordList, wordListProblems } from '../../shared/word-list.ts';

test('a line is a word that is used, or one that is not with what is written instead; the rest is for people', () => {
  expect(readWordList('\uFEFF# ours\r\nlanding gear\n\n  utilize ->  use \nturn off → switch off')).toEqual({
    approved: ['landing gear'],
    instead: { utilize: 'use', 'turn off': 'switch off' },
    problems: [],
  });
});

test.each([
  ['-> use', 'Line 1: write a word'],
  ['utilize ->', 'Line 1: write a word'],
  ['a -> b -> c', 'Line 1: write a word'],
  ['lamp\n\nLamp -> light', 'Line 3: “Lamp” is in line 1 too.'],
  ['x'.repeat(101), 'at most 100 characters'],
  [
    Array.from({ length: mostWords + 2 }, (_, at) => `word-${at}`).join('\n'),
    `Line ${mostWords + 1}: a list has at most`,
  ],
])('what cannot be used is told with its line, and the rest is used: %#', (text, told) => {
  const { problems } = readWordList(`${text}\n`);
  expect(problems).toEqual([expect.stringContaining(told)]);
  if (text.length < 1000) expect(readWordList(`${text}\ngood`).approved).toContain('good');
});

test('the words of the file come beside those of the settings, which keep their defaults', () => {
  const given = { wordList: 'shop.words', approvedWords: ['proof box'] };
  const settings = withWordList(given, defaultSettings, (path) =>
    path === 'shop.words' ? 'lamp\nkettle -> bowl' : '',
  );
  expect(settings.approvedWords).toEqual(['proof box', 'lamp']);
  expect(settings.notApprovedWords).toEqual({ ...defaultSettings.notApprovedWords, kettle: 'bowl' });
  expect(withWordList({}, defaultSettings, () => 'lamp')).toEqual({});
});

test('a list that is not there is told at its setting', () => {
  const read = (wordList?: string) => ({ given: { ...(wordList !== undefined && { wordList }) }, problems: [] });
  expect(wordListProblems(read('gone.words'), () => undefined)).toEqual([
    { key: 'wordList', message: expect.stringContaining('There is no file “gone.words”') },
  ]);
  for (const none of [undefined, '']) expect(wordListProblems(read(none), () => undefined)).toEqual([]);
});
