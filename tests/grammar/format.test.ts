import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { globSync } from 'tinyglobby';
import { describe, expect, test } from 'vitest';
import { format } from '../../grammar/format.ts';
import { parse } from '../../grammar/parse.ts';
import { printedGrammar, randomText } from '../support/random-card.ts';
import { shapeOf } from '../support/tree.ts';

const samples = globSync('samples/**/*.card').map((file) => [file, readFileSync(file, 'utf8')] as const);

function expectSameMeaning(before: string, after: string): void {
  const old = parse(before);
  const now = parse(after);
  expect(shapeOf(now.file)).toEqual(shapeOf(old.file));
  expect(now.comments.map(({ text }) => text.trimEnd())).toEqual(old.comments.map(({ text }) => text.trimEnd()));
}

describe('the same card comes out', () => {
  test.each(samples)('%s', (_, text) => {
    const formatted = format(text);
    expectSameMeaning(text, formatted);
    expect(format(formatted)).toBe(formatted);
  });

  test.each(['file', 'card'])('any %s that the grammar allows, wherever blanks and comments stand', (rule) => {
    fc.assert(
      fc.property(randomText(printedGrammar(), rule), (text) => {
        expect(parse(text).problems).toEqual([]);
        const formatted = format(text);
        expectSameMeaning(text, formatted);
        expect(format(formatted)).toBe(formatted);
      }),
      { numRuns: 300 },
    );
  });
});
