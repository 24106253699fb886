/** The language reference is right: its examples, its grammar, its tables and its links. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse.ts';
import { withTables } from '../../grammar/reference.ts';
import { contextualWords, reservedWords } from '../../grammar/words.ts';
import { openWorkspace } from '../../server/api.ts';

const reference = readFileSync('grammar/README.md', 'utf8');
const examples = [...reference.matchAll(/```cardwright(.*)\n([\s\S]*?)```/g)].map(([, kind = '', text = '']) => ({
  kind: kind.trim(),
  text,
  firstLine: text.split('\n')[0],
}));

describe('examples', () => {
  test.each(examples)('$firstLine', ({ kind, text }) => {
    const whole = kind === 'in a card' ? `card c "C" {\n${text}\n}` : text;
    expect(parse(whole).problems).toEqual([]);
  });

  const codes = (text: string) => {
    const { findings } = openWorkspace({ readText: (file) => (file === 'a.card' ? text : undefined) }).check([
      'a.card',
    ]);
    return findings.map(({ code }) => code);
  };
  const complete = examples.find(({ kind }) => kind === 'complete')?.text ?? '';

  test('nothing is found in the whole card', () => expect(codes(complete)).toEqual([]));

  test('its rule is found broken where the step that keeps it is taken away', () => {
    expect(codes(complete.replace('step by fitter  set inlet open', ''))).toContain('safety.rule');
  });
});

test('the grammar has every word of the language and no other', () => {
  const [, printed = ''] = /```ebnf\n([\s\S]*?)```/.exec(reference) ?? [];
  const words = new Set([...printed.matchAll(/"([a-z]+)"/g)].map(([, word]) => word as string));
  expect([...words].sort()).toEqual([...new Set<string>([...reservedWords, ...contextualWords])].sort());
});

test('its tables are made from the code: run `npm run generate`', () => expect(reference).toBe(withTables(reference)));

test('its links lead somewhere', () => {
  const anchors = [...reference.matchAll(/^#+ (.*)$/gm)].map(([, heading = '']) =>
    heading
      .toLowerCase()
      .replace(/[^\p{L}\p{N} -]/gu, '')
      .replaceAll(' ', '-'),
  );
  const links = [...reference.matchAll(/\]\(#([^)]*)\)/g)].map(([, link]) => link);
  expect(links.filter((link) => !anchors.includes(link as string))).toEqual([]);
});
