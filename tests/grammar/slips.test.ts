/** Slips of writers who are new to the language: each is one message, which says why and shows the line as it should stand. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse.ts';
import type { SyntaxProblem } from '../../grammar/syntax.ts';

interface Slip {
  readonly where: 'file' | 'card' | 'step';
  readonly slip: string;
  /** What the message says besides the line. */
  readonly told: string;
  /** What stands there after the fix; left out where nobody can say what was meant. */
  readonly becomes?: string;
}

const slips: readonly Slip[] = JSON.parse(readFileSync(new URL('slips.json', import.meta.url), 'utf8'));

const round: Readonly<Record<Slip['where'], readonly [string, string]>> = {
  file: ['', '\nkind next { open }\n'],
  card: ['gauge play "the play" in mm\ncard c "C" {\n  ', '\n  step set next open\n}\n'],
  step: ['gauge play "the play" in mm\ncard c "C" {\n  step {\n    ', '\n  }\n  step set next open\n}\n'],
};

function mended(text: string, { fix }: SyntaxProblem): string {
  return [...(fix?.edits ?? [])]
    .sort((a, b) => b.start - a.start)
    .reduce((sofar, { start, end, newText }) => sofar.slice(0, start) + newText + sofar.slice(end), text);
}

test.each(slips)('$slip', ({ where, slip, told, becomes }) => {
  const [before, after] = round[where];
  const { problems } = parse(before + slip + after);
  expect(problems).toHaveLength(1);
  const [problem] = problems as [SyntaxProblem];
  expect(problem.message).toContain(told);
  if (becomes === undefined) expect(problem.fix).toBeUndefined();
  else expect(mended(before + slip + after, problem)).toBe(before + becomes + after);
  expect(problem.fix?.title ?? '').not.toContain('\n');
});

describe('what a slip does not do', () => {
  test('the names on its line stay where they are', () => {
    const text = 'card c "C" {\n  step open louvre\n}\n';
    const { file } = parse(text);
    const names: string[] = [];
    JSON.stringify(file, (_, value) => {
      if (value?.type === 'name') names.push(`${value.text}=${text.slice(value.start, value.end)}`);
      return value;
    });
    expect(names).toContain('louvre=louvre');
    expect(names).toContain('open=open');
  });

  test('a comment on its line is kept', () => {
    const [problem] = parse('card c "C" {\n  step open louvre // slowly\n}\n').problems as [SyntaxProblem];
    expect(problem.fix?.edits.map(({ newText }) => newText)).toEqual(['step set louvre open']);
  });

  test('a text that can be read is never taken for one', () => {
    const text = 'card c "C" {\n  step "IF p > 0,5 bar THEN open the valve."\n  step { set a open set b open }\n}\n';
    expect(parse(text).problems).toEqual([]);
  });

  test('very many of them end', () => {
    const text = `card c "C" {\n${'  step open the valve, then close it\n'.repeat(3_000)}}\n`;
    expect(parse(text).problems.length).toBeLessThanOrEqual(100);
  });
});
