import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { cleanCard, folder } from './support.ts';

const untidy = cleanCard.replaceAll('\n', '\n\n\n').replaceAll('  ', '        ');

test('prints the usual layout and changes nothing', async () => {
  const here = folder().write('a.card', untidy);
  expect(await here.run(['format', 'a.card'])).toEqual({
    code: 0,
    out: expect.stringContaining('card wash "Wash" {\n'),
    errors: '',
  });
  expect(here.read('a.card')).toBe(untidy);
});

test('writes the files that change, and names them', async () => {
  const here = folder().write('a.card', untidy);
  expect(await here.run(['format', '.', '--write'])).toEqual({ code: 0, out: 'a.card\n', errors: '' });
  expect((await here.run(['format', '.', '--write'])).out).toBe('');
});

test('only says which files would change', async () => {
  const here = folder().write('a.card', untidy);
  expect(await here.run(['format', '.', '--check'])).toMatchObject({ code: 1, out: 'a.card\n' });
  expect(here.read('a.card')).toBe(untidy);
});

test('leaves a file that does not parse as it is', async () => {
  const here = folder().write('a.card', 'card   wash {');
  const { code, errors } = await here.run(['format', '.', '--write']);
  expect(code).toBe(2);
  expect(errors).toContain('"a.card" does not parse');
  expect(here.read('a.card')).toBe('card   wash {');
});

test('keeps a byte order mark', async () => {
  const here = folder().write('a.card', `\uFEFF${untidy}`);
  await here.run(['format', '.', '--write']);
  expect([...readFileSync(join(here.path, 'a.card')).subarray(0, 4)]).toEqual([0xef, 0xbb, 0xbf, 0x63]);
});
