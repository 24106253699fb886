import { describe, expect, it } from 'vitest';
import { completionContext } from '../../../server/features/completion/context.ts';
import { readCursor } from '../../support/marks.ts';

function wanted(marked: string): string {
  const { text, offset } = readCursor(marked);
  const { wanted } = completionContext(text, offset);
  const words = wanted.flatMap((want) => (want.type === 'word' && !want.begins ? want.word : []));
  const others = wanted.flatMap((want) => (want.type === 'word' ? [] : Object.values(want).filter(Boolean).join(' ')));
  return [...others, ...(words.length > 0 ? [words.join('|')] : [])].join(', ');
}

const inStep = (words: string) => wanted(`card c "C" { stage "S" { step ${words}`);

describe('what may come next', () => {
  it.each([
    ['set $0', 'item true'],
    ['set pu$0', 'item true'],
    ['set pump $0', 'state pump'],
    ['set pump on, $0', 'item true'],
    ['set parking-brake set, $0', 'item true'],
    ['ensure pump $0', 'state pump'],
    ['run starter $0', 'state starter'],
    ['run starter cranking $0', 'for|until'],
    ['run starter cranking for 25 $0', 'unit time, to'],
    ['read bus $0', 'at least|at most|above|below|exactly|in'],
    ['read bus in normal $0', 'else go to|else stop|else finish|else'],
    ['read bus in $0', 'limit bus'],
    ['read bus at least 24 $0', 'unit bus'],
    ['read bus in normal else go to $0', 'label'],
    ['check pump $0', 'state pump, at least|at most|above|below|exactly|in|reaches'],
    ['check pump on and $0', 'item, gauge, supply, not|any|every'],
    ['check any $0', 'kind, supply reaches'],
    ['check any breaker $0', 'state breaker'],
    ['check dc reaches $0', 'node dc'],
    ['wait until pump on $0', 'for at least|for at most|and|or|within|else go to|else stop|else finish|else'],
    ['by $0', 'role'],
    ['takes 2 $0', 'unit time, to'],
    ['{ sign $0', 'role'],
    ['only unit $0', 'value unit'],
    ['only unit 3, 4 and $0', 'variant'],
  ])('step %s', (words, expected) => expect(inStep(words)).toBe(expected));

  it('the same after thousands of questions as after one', () => {
    const wantedAfter = (count: number) =>
      wanted(`card c "C" { ${'if "A?" { step "B." } else '.repeat(count)}if "A?" { step "B." } $0`);
    expect(wantedAfter(5000)).toBe(wantedAfter(1));
  });

  it.each([
    ['item pump : $0', 'kind'],
    ['item pump : switch "the pump" normally $0', 'state switch'],
    ['item pump : switch needs $0', 'supply'],
    ['item pump : switch needs dc while $0', 'state switch'],
    ['gauge g "g" in $0', 'unit'],
    ['rule r "R" { before $0', 'item, gauge, supply, not|any|every'],
    ['supply dc "dc" { link a -> $0', 'node, item'],
    ['procedure p(x: $0', 'kind, gauge'],
    ['use "$0"', 'file'],
    ['card c "C" { stage "S" { warning $0', 'hazard warning'],
    ['card c "C" { stage "S" { do p(a, $0', 'argument p 1'],
    ['card c "C" { stage "S" { for each x in $0', 'kind, item'],
    ['card c "C" { accept $0', 'code'],
  ])('%s', (text, expected) => expect(wanted(text)).toBe(expected));

  it.each([
    ['item pump : switch { duty $0', 'state switch'],
    ['item pump : switch may off when lamp lit { duty $0', 'state switch'],
    ['kind switch { off, on }\nitem pump : switch normally $0', 'state switch'],
    ['hazard h "H" while pump on { level 95 $0', 'unit sound level'],
    ['item muffs : ears reduces 25 $0', 'unit noise reduction'],
    ['card c "C" { step tighten cover to 25 $0', 'unit torque, to'],
    ['card c "C" { for each x in pumps { step set x $0', 'state pumps'],
    ['card c "C" { for each x in pumps { step set $0', 'item true, round x'],
    ['card c "C" { step check pump on else $0', 'go to|stop|finish'],
    ['card c "C" { accept supply.$0', 'rest supply'],
  ])('%s', (text, expected) => expect(wanted(text)).toBe(expected));

  it('goes on where a sentence around a slip was left unfinished', () => {
    expect(inStep('set pump\n    step set $0')).toBe('item true');
    expect(inStep('read bus in\n  }\n  stage "T" {\n    step by $0')).toBe('role');
    expect(inStep('xx yy zz set $0')).toBe('item true');
  });

  it('completes the slots of a text, and nothing else in texts and comments', () => {
    expect(inStep('"Open {$0"')).toBe('slot');
    expect(inStep('"Read {bus.$0}"')).toBe('limit bus');
    expect(inStep('"Open the $0"')).toBe('');
    expect(inStep('"A brace {{ $0"')).toBe('');
    expect(wanted('// set $0')).toBe('');
  });
});
