// `npm start`: from a fresh clone to cards that can be looked at and an extension that can be installed.
import { existsSync, readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { ensureInstalled } from './install.mjs';
import { run } from './run.mjs';

const to = 'out';

/** The folders of samples that must be clean; those in with-faults have their findings on purpose. */
function cleanSamples() {
  return readdirSync('samples', { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && entry.name !== 'with-faults')
    .map((entry) => `samples/${entry.name}`);
}

ensureInstalled();
run('npm', ['run', '--silent', 'package']);

const samples = cleanSamples();
console.log('\nChecking the samples …');
run(process.execPath, ['dist/cli.cjs', 'check', '--strict', ...samples]);
console.log('\nExporting their cards …');
run(process.execPath, ['dist/cli.cjs', 'export', ...samples, '--to', to]);

console.log(`\nThe cards lie in      ${resolve(to)}`);
for (const extension of readdirSync('.').filter((name) => name.endsWith('.vsix'))) {
  console.log(`The extension lies at ${resolve(extension)}`);
  console.log(`Install it with       code --install-extension ${extension}`);
}
if (!existsSync(to)) process.exit(1);
