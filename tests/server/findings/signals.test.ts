/** ANSI Z535.4-2007, 4.14: the signal word by what a hazard will or could do. */
import { expect, test } from 'vitest';
import { findingsOf } from '../../support/check.ts';

const words = ['danger', 'warning', 'caution', 'note'] as const;

const told = (harm: string, word: string, use = 'use "std:signals"') =>
  findingsOf(
    `${use} item oven : heater "the oven" normally off hazard heat "heat" while oven on { ${harm} ${word} "Hot." }`,
    { only: ['signal'] },
  ).map(({ message, source }) => [message, source]);

/** Row and cell of the table as in the standard's definitions (safetylabel.com, ANSI signal words). */
test.each([
  ['will kill', 'danger'],
  ['could kill', 'warning'],
  ['could injure', 'caution'],
  ['will damage', 'note'],
  ['could damage', 'note'],
] as const)('what %s has the word %s, and no other', (harm, right) => {
  expect(words.filter((word) => told(harm, word).length === 0)).toEqual([right]);
  expect(told(harm, right === 'note' ? 'danger' : 'note')).toEqual([
    [expect.stringContaining(`“${right}”`), 'ANSI Z535.4-2007, 4.14'],
  ]);
});

test('what is not said cannot be held against the table, and that is told', () => {
  expect(told('', 'warning')).toHaveLength(1);
});

test('a file that does not use the rulebook follows whatever standard it likes', () => {
  for (const harm of ['', 'could damage', 'will kill']) expect(told(harm, 'caution', '')).toEqual([]);
});
