/** A reason why no test notices a mutant is of use only as long as the line is there. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { equivalents } from './equivalent.ts';
import { equivalentLimits } from './equivalent-limits.ts';
import { equivalentTimes } from './equivalent-times.ts';

test('each mutant that changes no answer is one of a line that there is', () => {
  const all = [...equivalents, ...equivalentLimits, ...equivalentTimes];
  const linesOf = (file: string) =>
    readFileSync(file, 'utf8')
      .split('\n')
      .map((line) => line.trim());
  expect(all.filter(({ file, line }) => !linesOf(file).includes(line))).toEqual([]);
});
