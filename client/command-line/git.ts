/** What Git knows of the files of a folder. */
import { execFileSync } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import type { Written } from '../../server/api.ts';
import { settingsFile } from './settings.ts';
import { CannotRun } from './surroundings.ts';

/** The whole paths of the files that are otherwise than in a commit, or new since. */
export function changedSince(commit: string, folder: string): ReadonlySet<string> {
  const top = resolve(folder, git(['rev-parse', '--show-cdup'], folder).trimEnd());
  const since = commit === 'HEAD' && !hasCommit(top) ? emptyTree(top) : commit;
  const changed = git(['diff', '--name-only', '--no-renames', '--no-ext-diff', '-z', '--end-of-options', since], top);
  const fresh = git(['ls-files', '--others', '--exclude-standard', '-z'], top);
  const names = [changed, fresh].flatMap((list) => list.split('\0')).filter((name) => name !== '');
  return new Set(names.map((name) => join(top, name)));
}

/** Before the first commit all is new. */
function hasCommit(folder: string): boolean {
  try {
    git(['rev-parse', '--verify', '--quiet', 'HEAD'], folder);
    return true;
  } catch {
    return false;
  }
}

/** What Git calls a tree without a file, by whichever digest this repository goes. */
function emptyTree(folder: string): string {
  return git(['hash-object', '-t', 'tree', '--stdin'], folder).trim();
}

/** Whether one of the files that something is made of has changed, or the settings that it goes by. */
export function isTouched(sources: readonly string[], changed: ReadonlySet<string>, folder: string): boolean {
  const paths = sources.map((source) => resolve(folder, source));
  return paths.some(
    (path) => changed.has(path) || foldersAbove(path).some((at) => changed.has(join(at, settingsFile))),
  );
}

function foldersAbove(path: string): string[] {
  const above = dirname(path);
  return above === path ? [] : [above, ...foldersAbove(above)];
}

/** Whether the folder is in a repository. */
export function isVersioned(folder: string): boolean {
  try {
    return git(['rev-parse', '--is-inside-work-tree'], folder).trim() === 'true';
  } catch {
    return false;
  }
}

/** Who wrote a line as it is, and when; undefined where it is not committed. */
export function writtenAt(file: string, line: number, folder: string): Written | undefined {
  try {
    const said = git(['blame', '--porcelain', '-L', `${line},${line}`, '--', file], folder);
    const [, by] = /^author (.+)$/m.exec(said) ?? [];
    const [, seconds] = /^author-time (\d+)$/m.exec(said) ?? [];
    const isCommitted = !/^0+ /.test(said);
    return isCommitted && by !== undefined && seconds !== undefined
      ? { by, on: new Date(Number(seconds) * 1000) }
      : undefined;
  } catch {
    return undefined;
  }
}

/** No setting of a folder that somebody else has made may start a program. */
const quietly = ['-c', 'core.fsmonitor=false'];

export function git(args: readonly string[], folder: string): string {
  try {
    return execFileSync('git', [...quietly, ...args], {
      cwd: folder,
      encoding: 'utf8',
      maxBuffer: 1024 ** 3,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  } catch (error) {
    const { code, stderr, message } = error as NodeJS.ErrnoException & { readonly stderr?: string };
    if (code === 'ENOENT') throw new CannotRun('This needs Git, and there is none on this machine.');
    throw new CannotRun(`Git cannot say what has changed: ${(stderr?.trim() || message).split('\n')[0]}`);
  }
}
