import { describe, expect, it } from 'vitest';
import { completionContext } from '../../../server/features/completion/context.ts';
import { readCursor } from '../../support/marks.ts';

function wanted(marked: string): string {
  const { text, offset } = readCursor(marked);
  return completionContext(text, offset)
    .wanted.map((want) =>
      'words' in want ? want.words.join('|') : [want.type, ...Object.values(want).slice(1)].join(' '),
    )
    .join(', ');
}

const inStep = (words: string) => wanted(`card c "C" { stage "S" { step ${words}`);

describe('what may come next', () => {
  it.each([
    ['set $0', 'item'],
    ['set pu$0', 'item'],
    ['set pump $0', 'state pump'],
    ['set pump on, $0', 'item'],
    ['set parking-brake set, $0', 'item'],
    ['ensure pump $0', 'state pump'],
    ['run starter $0', 'state starter'],
    ['run starter cranking $0', 'for|until'],
    ['run starter cranking for 25 $0', 'time-unit'],
    ['read bus $0', 'in|at least|at most|above|below|exactly'],
    ['read bus in $0', 'limit bus'],
    ['read bus at least 24 $0', 'unit bus'],
    ['read bus in normal else go to $0', 'label'],
    ['check pump $0', 'state pump, in|at least|at most|above|below|exactly|reaches'],
    ['check pump on and $0', 'item, gauge, supply, any|every|not'],
    ['check any $0', 'kind'],
    ['check any breaker $0', 'state breaker'],
    ['check dc reaches $0', 'node dc'],
    ['wait until pump on $0', 'and|or|for at least|for at most'],
    ['by $0', 'role'],
    ['takes 2 $0', 'time-unit'],
    ['{ sign $0', 'role'],
    ['only unit $0', 'value unit'],
    ['only unit 3, 4 and $0', 'variant'],
  ])('step %s', (words, expected) => expect(inStep(words)).toBe(expected));

  it.each([
    ['item pump : $0', 'kind'],
    ['item pump : switch "the pump" normally $0', 'state switch'],
    ['item pump : switch needs $0', 'supply'],
    ['item pump : switch needs dc while $0', 'state switch'],
    ['gauge g "g" in $0', 'unit'],
    ['rule r "R" { before $0', 'item, gauge, supply, any|every|not'],
    ['supply dc "dc" { link a -> $0', 'node, item'],
    ['procedure p(x: $0', 'kind, gauge'],
    ['use "$0"', 'file'],
    ['card c "C" { stage "S" { warning $0', 'hazard'],
    ['card c "C" { stage "S" { do p(a, $0', 'argument p 1'],
    ['card c "C" { stage "S" { for each x in $0', 'kind, item'],
    ['card c "C" { accept $0', 'code'],
  ])('%s', (text, expected) => expect(wanted(text)).toBe(expected));

  it('knows the block at the beginning of a line', () => {
    expect(wanted('$0')).toBe('beginning file');
    expect(wanted('card c "C" {\n  $0\n}')).toBe('beginning card');
    expect(wanted('card c "C" {\n  stage "S" {\n    step set pump on\n    $0')).toContain('beginning statements');
    expect(wanted('card c "C" { stage "S" { step { $0')).toBe('beginning step');
    expect(wanted('card c "C" { stage "S" { run s on for 3 s { $0')).toBe('beginning run');
    expect(wanted('card c "C" { stage "S" { together { by a { $0')).toBe('beginning statements');
    expect(wanted('gauge g "g" in V { $0')).toBe('beginning gauge');
    expect(wanted('kind k { $0')).toBe('beginning kind');
  });

  it('completes the slots of a text, and nothing else in texts and comments', () => {
    expect(inStep('"Open {$0"')).toBe('slot');
    expect(inStep('"Read {bus.$0}"')).toBe('limit bus');
    expect(inStep('"Open the $0"')).toBe('');
    expect(inStep('"A brace {{ $0"')).toBe('');
    expect(wanted('// set $0')).toBe('');
  });
});
