// The programs that the tests drive besides Node: a browser, a second editor, and tools to look at paper.
import { existsSync } from 'node:fs';
import { findProgram, run } from './run.mjs';

const debianPackages = { chromium: 'chromium', rg: 'ripgrep', nvim: 'neovim', pdftoppm: 'poppler-utils' };

/** Of the faces that a card names the one that anybody may have: in a wider one cards take more pages. */
const face = { folder: '/usr/share/fonts/truetype/liberation', debianPackage: 'fonts-liberation' };

const browsers = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/** On Debian as root, installs what is missing. Elsewhere nothing is touched. */
export function ensureDebianPrograms() {
  if (!existsSync('/etc/debian_version') || process.getuid?.() !== 0) return;
  const missing = Object.keys(debianPackages).filter((program) => !findProgram(program));
  const packages = missing.map((program) => debianPackages[program]);
  if (!existsSync(face.folder)) packages.push(face.debianPackage);
  if (packages.length === 0) return;
  const quietly = { DEBIAN_FRONTEND: 'noninteractive' };
  console.log(`Installing ${packages.join(', ')} …`);
  run('apt-get', ['update', '-qq'], quietly);
  run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], quietly);
}

/** The browser that the tests drive: CHROMIUM where it is set, or one that this machine has. */
export function findBrowser() {
  return process.env.CHROMIUM || findProgram(...browsers);
}
