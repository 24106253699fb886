/** Each sort of question finds what its examples mark, and nothing where they are mended. */
import { expect, test } from 'vitest';
import { textsOf } from '../../../server/findings/support/help.ts';
import { allQuestions } from '../../../server/proof/all-questions.ts';
import type { Break } from '../../../server/proof/break.ts';
import { compareWithMarks, readMarks } from '../../support/marks.ts';
import { proofOf } from './prove.ts';

const examples = allQuestions.flatMap(([list, sort]) =>
  sort.examples.map((one, number) => ({ list, number, ...textsOf(one) })),
);

test.each(examples)('$list $number', ({ list, bad, good }) => {
  expect(compareWithMarks(readMarks(bad), foundIn(bad, list))).toEqual({ missed: [], unexpected: [] });
  expect(foundIn(good, list)).toEqual([]);
});

function foundIn(text: string, list: string) {
  const facts = proofOf(text).proof[list as 'rules'] as readonly Break[];
  return facts.map(({ place }) => ({ code: list, place, message: '' }));
}

test('each sort of question shows itself', () => {
  expect(allQuestions.flatMap(([list, sort]) => (sort.examples.length === 0 ? [list] : []))).toEqual([]);
});
