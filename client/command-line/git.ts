/** What Git knows of the files of a folder. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { Written } from '../../server/api.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { settingsFile } from './settings.ts';
import { CannotRun } from './surroundings.ts';

/** What is otherwise than in a commit, or new since. */
export interface Changes {
  /** The folder of the repository. */
  readonly top: string;
  /** Whole paths. */
  readonly files: ReadonlySet<string>;
}

const diff = ['diff', '--name-only', '--no-renames', '--no-ext-diff', '--ignore-submodules', '-z', '--end-of-options'];

export function changedSince(commit: string, folder: string): Changes {
  const top = resolve(folder, git(['rev-parse', '--show-cdup'], folder).trimEnd());
  const since = commit === 'HEAD' && !hasCommit(top) ? emptyTree(top) : commit;
  const changed = git([...diff, since], top);
  const fresh = git(['ls-files', '--others', '--exclude-standard', '-z'], top);
  const names = [changed, fresh].flatMap((list) => list.split('\0')).filter((name) => name !== '');
  return { top, files: new Set(names.map((name) => join(top, name))) };
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
export function isTouched(sources: readonly string[], { top, files }: Changes, folder: string): boolean {
  const paths = sources.map((source) => resolve(folder, source));
  return paths.some((path) => {
    const above = foldersAbove(path);
    return files.has(path) || isElsewhere(above, top) || above.some((at) => files.has(join(at, settingsFile)));
  });
}

/** Of a file outside of the repository, or in one of its own inside, Git has said nothing: it counts as changed. */
function isElsewhere(above: readonly string[], top: string): boolean {
  const inside = above.slice(0, Math.max(0, above.indexOf(top)));
  return !above.includes(top) || inside.some((at) => existsSync(join(at, '.git')));
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

/** Whether something in a folder was committed, or is to be. */
export function isInGit(path: string, folder: string): boolean {
  try {
    return git(['ls-files', '-z', '--', path], folder) !== '';
  } catch {
    return false;
  }
}

/** Who wrote a line as it is, and when; undefined where it is not committed. */
export function writtenAt(file: string, line: number, folder: string): Written | undefined {
  try {
    const said = git(['blame', '--porcelain', '--no-textconv', '-L', `${line},${line}`, '--', file], folder);
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

export function git(args: readonly string[], folder: string): string {
  try {
    return run(args, folder, quietly(folder));
  } catch (error) {
    const { code, stderr, message } = error as NodeJS.ErrnoException & { readonly stderr?: string };
    if (code === 'ENOENT') throw new CannotRun('This needs Git, and there is none on this machine.');
    throw new CannotRun(`Git cannot say what has changed: ${(stderr?.trim() || message).split('\n')[0]}`);
  }
}

function run(args: readonly string[], folder: string, env: NodeJS.ProcessEnv): string {
  return execFileSync('git', args, {
    cwd: folder,
    encoding: 'utf8',
    env,
    maxBuffer: 1024 ** 3,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

const known = new Map<string, NodeJS.ProcessEnv>();

/** No setting of a folder that somebody else has made may start a program: no watcher, no hook, no filter, no fetch of what is missing. */
function quietly(folder: string): NodeJS.ProcessEnv {
  return getOrInsert(known, folder, () => {
    const filters = filterSettings(folder).map((key) => [key, key.endsWith('.required') ? 'false' : '']);
    return withSettings([['core.fsmonitor', 'false'], ['core.hooksPath', '/dev/null'], ...filters]);
  });
}

/** A filter has any name; these settings come before those of the folder. */
function withSettings(settings: readonly (readonly string[])[]): NodeJS.ProcessEnv {
  const first = Number(process.env.GIT_CONFIG_COUNT ?? 0);
  const entries = settings.flatMap(([key, value], index) => [
    [`GIT_CONFIG_KEY_${first + index}`, key],
    [`GIT_CONFIG_VALUE_${first + index}`, value],
  ]);
  return {
    ...process.env,
    ...Object.fromEntries(entries),
    GIT_CONFIG_COUNT: String(first + settings.length),
    GIT_ALLOW_PROTOCOL: 'none',
    GIT_NO_LAZY_FETCH: '1',
    GIT_OPTIONAL_LOCKS: '0',
  };
}

function filterSettings(folder: string): readonly string[] {
  try {
    const keys = ['config', '-z', '--name-only', '--get-regexp', '^filter\\..*\\.(clean|smudge|process|required)$'];
    return [...new Set(run(keys, folder, process.env).split('\0'))].filter((key) => key !== '');
  } catch {
    return [];
  }
}
