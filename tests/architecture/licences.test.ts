/** What others have written goes out with their licence, and nothing goes out whose licence does not allow it. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { bundles } from '../../.ci/bundles.mjs';
import { foldersIn, noticesOf } from '../../.ci/licences.mjs';
import manifest from '../../package.json' with { type: 'json' };

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cardwright-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function packaged(name: string, license: unknown, files: Readonly<Record<string, string>>): string {
  const at = join(folder, 'node_modules', name);
  mkdirSync(at, { recursive: true });
  writeFileSync(join(at, 'package.json'), JSON.stringify({ name, version: '1.2.3', license }));
  for (const [file, text] of Object.entries(files)) writeFileSync(join(at, file), text);
  return at;
}

test('every package in a bundle has a licence that allows it, and its text', async () => {
  const built = await Promise.all(bundles.map((bundle) => build({ ...bundle, write: false })));
  const folders = foldersIn(built.map(({ metafile }) => metafile));
  expect(folders).toEqual(expect.arrayContaining(['node_modules/chevrotain', 'node_modules/@noble/hashes']));
  const notices = noticesOf(folders);
  for (const at of folders) {
    const { name, version } = JSON.parse(readFileSync(join(at, 'package.json'), 'utf8'));
    expect(notices).toContain(`${name} ${version} (`);
  }
  expect(notices).toContain(readFileSync('node_modules/chevrotain/LICENSE.txt', 'utf8').trim());
});

test.each([
  'GPL-3.0-only',
  'MIT AND GPL-2.0-or-later',
  'SEE LICENSE IN LICENSE',
  'UNLICENSED',
  undefined,
  { type: 'MIT' },
])('a package under %j is not bundled', (license) => {
  const at = packaged('strict', license, { LICENSE: 'Do not copy.' });
  expect(() => noticesOf([at])).toThrow(/^strict 1\.2\.3 has the licence .*: it cannot be bundled\.$/);
});

test('a package without the text of its licence is not bundled', () => {
  const at = packaged('silent', 'MIT', { 'readme.md': 'Free.' });
  expect(() => noticesOf([at])).toThrow('silent 1.2.3 has no text of its licence');
});

test('the text of every licence and notice is passed on, under the name of its package', () => {
  const both = packaged('@some/both', '(MIT OR GPL-3.0-only)', {
    'LICENSE-MIT': 'Do as you like.',
    NOTICE: 'Made by us.',
  });
  const notices = noticesOf([both, packaged('plain', 'ISC', { 'license.md': 'Do as you please.' })]);
  expect(notices).toMatch(/@some\/both 1\.2\.3 .*\n\nDo as you like\.\n\nMade by us\.\n/);
  expect(notices).toMatch(/plain 1\.2\.3 \(ISC\)\n\nDo as you please\.\n/);
});

test('a package counts from which something is in a bundle, whole or nested', () => {
  const inputs = {
    'node_modules/a/index.js': { bytesInOutput: 3 },
    'node_modules/b/node_modules/@c/d/x/y.js': { bytesInOutput: 1 },
    'node_modules/shaken-out/index.js': { bytesInOutput: 0 },
    'server/api.ts': { bytesInOutput: 9 },
  };
  expect(foldersIn([{ inputs: {}, outputs: { 'dist/a.js': { bytes: 1, inputs, imports: [], exports: [] } } }])).toEqual(
    ['node_modules/a', 'node_modules/b/node_modules/@c/d'],
  );
});

test('every package has one version, and the lock file the same', () => {
  const lock = JSON.parse(readFileSync('package-lock.json', 'utf8'));
  for (const [name, version] of Object.entries(manifest.devDependencies)) {
    expect(version, name).toMatch(/^\d+\.\d+\.\d+(?:-[\w.]+)?$/);
    expect(lock.packages[`node_modules/${name}`].version, name).toBe(version);
  }
  expect(lock.packages[''].devDependencies).toEqual(manifest.devDependencies);
  expect(
    Object.values<{ link?: true; integrity?: string }>(lock.packages).filter(({ integrity }) => !integrity),
  ).toHaveLength(1);
  expect(readFileSync('.npmrc', 'utf8')).toContain('save-exact=true');
});
