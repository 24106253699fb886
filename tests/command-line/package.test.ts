/** The command line as a package: it installs from its file, and runs in an empty folder with nothing else. */
import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { cleanCard, folder } from './support.ts';

test('`npm pack` gives a command line that installs from the file and runs in an empty folder', () => {
  const [packed, empty] = [folder(), folder()];
  const npm = (...args: string[]) => execFileSync('npm', [...args, '--offline', '--no-audit', '--no-fund', '--silent']);
  // What `npm run build` has made is packed, as in the other tests of the process.
  npm('pack', resolve('.'), '--ignore-scripts', '--pack-destination', packed.path);
  const [file = ''] = readdirSync(packed.path);
  npm('install', '--prefix', empty.path, join(packed.path, file));
  empty.write('cards/wash.card', cleanCard);
  const run = (...args: string[]) =>
    execFileSync(join(empty.path, 'node_modules/.bin/cardwright'), args, { cwd: empty.path, encoding: 'utf8' });
  expect(run('check', 'cards')).toContain('0 errors, 0 warnings, 0 hints in 1 file with 1 card');
  expect(run('release', 'cards', '--to', 'out')).toBe('out/wash-A.html\n');
  expect(run('verify', 'out/wash-A.html')).toContain('current');
  expect(run('report', 'cards')).toBe('report.html\n');
  expect(readdirSync(join(empty.path, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual(['cardwright']);
});
