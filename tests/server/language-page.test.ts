/** The page that shows the language is a card that can be trusted. */
import { expect, test } from 'vitest';
import { lex } from '../../grammar/tokens.ts';
import { declaringWords, fieldWords } from '../../grammar/words.ts';
import { explain, format } from '../../server/api.ts';
import { languageSample } from '../../server/language-page/language-page.ts';
import { findingsOf } from '../support/check.ts';

test('nothing is found in it, and it stands in the usual layout', () => {
  expect(findingsOf(languageSample)).toEqual([]);
  expect(format(languageSample)).toBe(languageSample);
});

test('each sort of declaration and action stands in it', () => {
  const words = new Set(lex(languageSample).tokens.map(({ image }) => image));
  const actions = ['set', 'ensure', 'check', 'read', 'run', 'wait', 'tighten', 'record', 'sign'];
  const statements = ['step', 'if', 'repeat', 'together', 'do', 'go', 'stop', 'finish', 'stage', 'warning'];
  const missing = [...declaringWords, ...actions, ...statements].filter((word) => !words.has(word));
  expect(missing).toEqual(['variant']);
  expect(fieldWords.some((word) => words.has(word))).toBe(true);
});

test('it is shown in parts, each with its heading', () => {
  const page = explain('language') ?? '';
  expect(page.match(/^## .+$/gmu)).toHaveLength(3);
  expect(page).toContain('step seated: by fitter');
  expect(page.match(/```/gu)).toHaveLength(6);
});
