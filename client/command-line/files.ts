/** Finds and reads cards. Files go by their path from the folder that the command runs in, with `/` on every system. */
import { closeSync, lstatSync, openSync, readdirSync, readSync, realpathSync, type Stats, statSync } from 'node:fs';
import { isAbsolute, relative, resolve, sep } from 'node:path';
import { type FileSystemAdapter, globSync, isDynamicPattern } from 'tinyglobby';
import type { FileProvider } from '../../server/api.ts';
import { largestFigure, largestText } from '../../shared/file-sizes.ts';

export interface CardFile {
  readonly name: string;
  readonly text: string;
}

/** What paths led to: files, each read once, or why one led to none. */
export interface FoundFiles {
  readonly files: readonly CardFile[];
  /** Those that were found by looking through a folder. */
  readonly inFolders: readonly string[];
  readonly problems: readonly string[];
}

/** Standard input, as a path. */
export const standardInput = '-';

const left = ['**/node_modules/**', '**/.*/**'];

/** The files that paths stand for: files, folders, patterns, or standard input. Each once, in the order of the paths. */
export function findCards(paths: readonly string[], folder: string): FoundFiles {
  const files = new Map<string, CardFile>();
  const inFolders = new Set<string>();
  const problems: string[] = [];
  for (const path of paths) {
    const { names, isNamed, isFolder, problems: atPath } = namesAt(path, folder);
    problems.push(...atPath);
    if (isFolder) for (const name of names) inFolders.add(name);
    for (const name of names.filter((each) => !files.has(each))) {
      const read = readText(name, folder, { isNamed });
      if (typeof read === 'string') files.set(name, { name, text: read });
      else problems.push(`"${name}" ${read.problem}`);
    }
  }
  return { files: [...files.values()], inFolders: [...inFolders], problems };
}

interface Names extends Required<ReadOptions> {
  readonly isFolder?: boolean;
  readonly names: readonly string[];
  readonly problems: readonly string[];
}

function namesAt(path: string, folder: string): Names {
  if (path === standardInput) return { names: [path], isNamed: true, problems: [] };
  const at = resolve(folder, path);
  const stats = lookedAt(at);
  if (stats && !stats.isDirectory()) return { names: [fileName(at, folder)], isNamed: true, problems: [] };
  if (!stats && !isDynamicPattern(path))
    return { names: [], isNamed: true, problems: [`There is no file or folder "${path}".`] };
  const problems: string[] = [];
  const options = { absolute: true, ignore: left, fs: telling(problems, folder) };
  const inside = stats ? globSync('**/*.card', { ...options, cwd: at }) : globSync(path, { ...options, cwd: folder });
  const names = eachOnce(inside.sort()).map((file) => fileName(file, folder));
  if (names.length === 0)
    problems.push(stats ? `There is no *.card file in the folder "${path}".` : `No file fits "${path}".`);
  return { names, isNamed: false, isFolder: stats !== undefined, problems };
}

/** A file to which links lead too, a circle of folders among them, is one card: it goes by its own path, or by the shortest. */
function eachOnce(paths: readonly string[]): readonly string[] {
  const names = new Map<string, string>();
  for (const path of paths) {
    const file = realPath(path);
    const known = names.get(file);
    if (known === undefined || path === file || (known !== file && path.length < known.length)) names.set(file, path);
  }
  return [...names.values()].sort();
}

function realPath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

/** Undefined where there is nothing; a link that leads nowhere is something. */
export function lookedAt(path: string): Stats | undefined {
  return leadsNowhere(path) ? lstatSync(path) : statsOf(path, statSync);
}

function leadsNowhere(path: string): boolean {
  return statsOf(path, lstatSync)?.isSymbolicLink() === true && !statsOf(path, statSync);
}

/** A path that is longer than the system takes, or goes in a circle, leads to nothing. */
function statsOf(path: string, look: typeof statSync): Stats | undefined {
  try {
    return look(path);
  } catch {
    return undefined;
  }
}

/**
 * A search passes over what it cannot look into, which would be an all-clear for cards that nobody has read. Here a folder that
 * cannot be read is told; a link that leads nowhere and a pipe count as files, so that reading them tells what is wrong.
 */
function telling(problems: string[], folder: string): FileSystemAdapter {
  const listed = (path: string) => {
    const entries = readdirSync(path, { withFileTypes: true });
    for (const entry of entries) if (!entry.isDirectory() && !entry.isSymbolicLink()) entry.isFile = () => true;
    return entries;
  };
  const listFolder = (path: string) => {
    try {
      return listed(path);
    } catch (error) {
      const { code, message } = error as NodeJS.ErrnoException;
      if (code !== 'ENOENT') problems.push(`The folder "${fileName(path, folder)}" cannot be read: ${message}`);
      return [];
    }
  };
  return {
    readdirSync: listFolder as unknown as typeof readdirSync,
    realpathSync: realPath as typeof realpathSync,
    statSync: lookedAt as typeof statSync,
  };
}

/** The name that a file goes by: its path from the folder, or its whole path where it lies on another drive. */
export function fileName(path: string, folder: string): string {
  const from = relative(folder, path);
  return (isAbsolute(from) ? path : from).split(sep).join('/');
}

const utf8 = new TextDecoder('utf-8', { fatal: true });

export interface ReadOptions {
  /** The user has named it: then it may be a pipe too, which gives its text once. */
  readonly isNamed?: boolean;
}

/** A text without its byte order mark, or why it cannot be read. */
export function readText(
  file: string,
  folder: string,
  options: ReadOptions = {},
): string | { readonly problem: string } {
  try {
    const bytes = readBytes(file, folder, largestText, options);
    if (bytes.includes(0)) return { problem: 'is no text: it holds zero bytes. Give a card, saved as UTF-8.' };
    return utf8.decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) return { problem: 'is not saved as UTF-8. Save it as UTF-8 and try again.' };
    return { problem: `cannot be read: ${(error as Error).message}` };
  }
}

/** What nobody named is read where it is a file; a pipe or a device would be waited for without an end. */
export function readBytes(file: string, folder: string, largest: number, { isNamed }: ReadOptions = {}): Buffer {
  const path = resolve(folder, file);
  if (file !== standardInput) refuseUnlessFile(statSync(path), isNamed ?? false);
  const handle = file === standardInput ? 0 : openSync(path, 'r');
  try {
    return readUpTo(handle, largest);
  } finally {
    if (handle !== 0) closeSync(handle);
  }
}

function refuseUnlessFile(stats: Stats, isNamed: boolean): void {
  if (stats.isFile() || (isNamed && !stats.isDirectory())) return;
  throw new Error('it is no file.');
}

function readUpTo(handle: number, largest: number): Buffer {
  const parts: Buffer[] = [];
  let length = 0;
  for (;;) {
    const part = Buffer.alloc(64 * 1024);
    const count = readSync(handle, part);
    if (count === 0) return Buffer.concat(parts);
    length += count;
    if (length > largest) throw new Error(`it is larger than ${largest / 1024 / 1024} MB.`);
    parts.push(part.subarray(0, count));
  }
}

/** A report shows lines of the files that cards use: outside of this folder only those of cards, wherever a link leads. */
function mayBeUsed(file: string, folder: string): boolean {
  try {
    const path = realpathSync(resolve(folder, file));
    return path.endsWith('.card') || !fileName(path, realpathSync(folder)).startsWith('../');
  } catch {
    return false;
  }
}

/** Files of this machine, for the server. Those that the user has named are not read again. */
export function diskProvider(folder: string, named: readonly CardFile[] = []): FileProvider {
  const known = new Map(named.map(({ name, text }) => [name, text]));
  return {
    readText(file) {
      const text = known.get(file) ?? (mayBeUsed(file, folder) ? readText(file, folder) : undefined);
      return typeof text === 'string' ? text : undefined;
    },
    readBytes(file) {
      try {
        return readBytes(file, folder, largestFigure);
      } catch {
        return undefined;
      }
    },
  };
}
