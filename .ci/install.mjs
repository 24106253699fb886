// Puts the packages of package-lock.json into node_modules. Uses nothing but Node, since it runs before any package is there.
import { existsSync, lstatSync, readFileSync, unlinkSync } from 'node:fs';
import { run } from './run.mjs';

/** Every package that the lock file names, with its version; packages for other machines are optional and may be missing. */
function packagesOf(lockFile) {
  return existsSync(lockFile) ? JSON.parse(readFileSync(lockFile, 'utf8')).packages : {};
}

function installed() {
  const wanted = packagesOf('package-lock.json');
  const present = packagesOf('node_modules/.package-lock.json');
  const named = Object.keys(wanted).filter((path) => path !== '');
  return (
    named.every(
      (path) => present[path]?.version === wanted[path].version || (wanted[path].optional && !present[path]),
    ) && Object.keys(present).every((path) => path in wanted)
  );
}

export function ensureInstalled() {
  if (installed()) return;
  // Through a link npm would empty the folder of another checkout; this one gets its own instead.
  if (lstatSync('node_modules', { throwIfNoEntry: false })?.isSymbolicLink()) unlinkSync('node_modules');
  console.log('Installing the packages that package-lock.json names …');
  run('npm', ['ci', '--no-audit', '--no-fund']);
}
