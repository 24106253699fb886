import { expect, it } from 'vitest';
import { parse } from '../../../grammar/parse.ts';
import { folds } from '../../../server/features/folding.ts';
import { type OutlineEntry, outline } from '../../../server/features/outline.ts';
import { selectionsAt } from '../../../server/features/selection.ts';
import { readCursor } from '../../support/marks.ts';

const text = `use "a.card"
use "b.card"
// one
// two
item left, right "the right one" : valve
gauge bus "bus voltage" in V {
  limit low at least 24 V
}
card rinse "Rinse" {
  number "1"
  stage first "Make safe" {
    step prepare: by a set left open
    if left open {
      step "Look."
    }
  }
}
`;

function lines(entries: readonly OutlineEntry[], indent = ''): string[] {
  return entries.flatMap(({ sort, name, detail, children }) => [
    `${indent}${sort} ${name}${detail && ` (${detail})`}`,
    ...lines(children, `${indent}  `),
  ]);
}

it('gives the tree of a file', () => {
  expect(lines(outline(parse(text)))).toEqual([
    'item left',
    'item right (the right one)',
    'gauge bus (bus voltage)',
    '  limit low',
    'card rinse (Rinse)',
    '  stage Make safe (first)',
    '    step set left open (prepare)',
    '    block if left open',
    '      step Look.',
  ]);
});

it('keeps each name inside its entry, whatever is half written', () => {
  const check = (entry: OutlineEntry) => {
    expect(entry.span.start).toBeLessThanOrEqual(entry.nameSpan.start);
    expect(entry.nameSpan.end).toBeLessThanOrEqual(entry.span.end);
    expect(entry.name).not.toBe('');
    entry.children.forEach(check);
  };
  for (let end = 0; end <= text.length; end++) outline(parse(text.slice(0, end))).forEach(check);
});

it('folds blocks, comments in a row, and the list of used files', () => {
  const found = folds(parse(text)).map(({ sort, start, end }) => `${sort} ${text.slice(start, end).split('\n')[0]}`);
  expect(found).toEqual([
    'block gauge bus "bus voltage" in V {',
    'block card rinse "Rinse" {',
    'block stage first "Make safe" {',
    'block if left open {',
    'uses use "a.card"',
    'comment // one',
  ]);
});

it('grows a selection from the word to the file', () => {
  const { text: marked, offset } = readCursor('card c "C" { stage "S" { step set pu$0mp on } }');
  const grown = selectionsAt(parse(marked), offset).map(({ start, end }) => marked.slice(start, end));
  expect(grown).toEqual([
    'pump',
    'pump on',
    'set pump on',
    'step set pump on',
    '{ step set pump on }',
    'stage "S" { step set pump on }',
    'card c "C" { stage "S" { step set pump on } }',
  ]);
});
