// Fills .cache/code-server with a real VS Code workbench and extension host that run headless, for the tests in
// tests/extension. It is no dependency of the project: 300 MB, needed by nobody who only builds.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { findProgram } from './run.mjs';

/** The newest that runs on Node 20; it is VS Code 1.100.3. */
const version = '4.100.3';
const folder = resolve(import.meta.dirname, '../.cache/code-server');
const server = join(folder, 'node_modules/code-server');
const workbench = join(server, 'lib/vscode');
/** Written last, so that a half-filled cache counts as empty. */
const done = join(folder, `installed-${version}`);

/** @returns the script that starts the editor, where it is installed. */
export function editorEntry() {
  return existsSync(done) ? join(server, 'out/node/entry.js') : undefined;
}

/** Native parts are built against the headers that came with this Node, so that nothing is fetched for them. */
function headers() {
  const folder = resolve(process.execPath, '../..');
  return existsSync(join(folder, 'include/node/node.h')) ? { npm_config_nodedir: folder } : {};
}

function npm(args, cwd) {
  const result = spawnSync('npm', [...args, '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, npm_config_yes: 'true', ...headers() },
    // Native parts are compiled, which a loaded machine takes long for: only a hang reaches this.
    timeout: 3_600_000,
  });
  const { status, error, stderr } = result;
  if (status !== 0) throw new Error(`npm ${args.join(' ')}: ${error?.message ?? stderr.trim()}`);
}

function link(target, path) {
  rmSync(path, { force: true });
  mkdirSync(dirname(path), { recursive: true });
  symlinkSync(target, path);
}

function install(ripgrep) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
  npm(['install', '--ignore-scripts', `code-server@${version}`], folder);
  npm(['rebuild', 'argon2', '--build-from-source'], folder);
  npm(['install', '--ignore-scripts', '--omit=dev'], workbench);
  npm(['rebuild', 'node-pty', '@vscode/spdlog', 'native-watchdog', '@vscode/deviceid'], workbench);
  link(ripgrep, join(workbench, 'node_modules/@vscode/ripgrep/bin/rg'));
  link('node_modules', join(workbench, 'node_modules.asar'));
  link('code-linux.sh', join(workbench, 'bin/remote-cli/code-server'));
  link('browser-linux.sh', join(workbench, 'bin/helpers/browser.sh'));
  writeFileSync(done, '');
}

/** Why the tests in the real editor cannot run here, or undefined where they can. */
function ensureEditor() {
  if (editorEntry()) return undefined;
  const ripgrep = findProgram('rg');
  if (process.platform !== 'linux') return 'the headless editor is built on Linux only';
  if (!ripgrep) return 'ripgrep (rg) is missing: install it';
  console.log('Installing the editor that the tests drive (about a minute, 300 MB, once) …');
  try {
    install(ripgrep);
  } catch (error) {
    return error.message;
  }
  return undefined;
}

if (process.argv[1] === import.meta.filename) {
  const obstacle = ensureEditor();
  if (obstacle) {
    console.error(`Skipping the tests in the real editor: ${obstacle}`);
    if (process.env.CI === 'true') process.exit(1);
  }
}
