import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { allFindings } from '../../server/findings/all.ts';

const folder = 'server/findings';
const files = readdirSync(folder).filter((name) => name.endsWith('.ts') && !['all.ts', 'finding.ts'].includes(name));

test('each file of the folder holds one finding, which is in the list', () => {
  const codes = files.map((file) => /code: '([^']+)'/.exec(readFileSync(`${folder}/${file}`, 'utf8'))?.[1]);
  expect([...codes].sort()).toEqual(allFindings.map(({ code }) => code).sort());
});

test.each(files)('%s is named after its code', (file) => {
  const code = /code: '([^']+)'/.exec(readFileSync(`${folder}/${file}`, 'utf8'))?.[1];
  expect(file).toBe(`${code?.replace('.', '-')}.ts`);
});

test.each(allFindings)('$code has a page that says what, why and what to do', ({ title, help }) => {
  expect(title).toMatch(/^[A-Z].*[^.]$/);
  for (const sentence of Object.values(help)) expect(sentence).toMatch(/^[“A-Z].*\.$/s);
});

/** What a text alone cannot bring about: a fault of the program, a picture or file beside it, a text beyond its bounds. */
const withoutExample = [
  'figure.unusable',
  'internal',
  'name.unused-item',
  'settings.unusable',
  'syntax.nesting',
  'syntax.too-large',
];

test('every other finding shows itself in an example', () => {
  const bare = allFindings.filter(({ examples }) => examples.length === 0).map(({ code }) => code);
  expect(bare.sort()).toEqual(withoutExample);
});
