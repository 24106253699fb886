/** Finds and reads cards. Files go by their path from the folder that the command runs in, with `/` on every system. */
import { readFileSync, statSync } from 'node:fs';
import { isAbsolute, relative, resolve, sep } from 'node:path';
import { globSync } from 'tinyglobby';
import type { FileProvider } from '../../server/api.ts';

/** What a path led to: files, or why it led to none. */
export interface FoundFiles {
  readonly files: readonly string[];
  readonly problems: readonly string[];
}

const left = ['**/node_modules/**', '**/.*/**'];

/** The files that paths stand for; each file once, in the order of the paths. */
export function findCards(paths: readonly string[], folder: string): FoundFiles {
  const found = paths.map((path) => cardsAt(path, folder));
  return {
    files: [...new Set(found.flatMap(({ files }) => files))],
    problems: found.flatMap(({ problems }) => problems),
  };
}

function cardsAt(path: string, folder: string): FoundFiles {
  const at = resolve(folder, path);
  const stats = statSync(at, { throwIfNoEntry: false });
  if (!stats) return { files: [], problems: [`There is no file or folder "${path}".`] };
  if (!stats.isDirectory()) return readable(fileName(at, folder), path, folder);
  const inside = globSync('**/*.card', { cwd: at, absolute: true, ignore: left }).sort();
  if (inside.length === 0) return { files: [], problems: [`There is no *.card file in the folder "${path}".`] };
  const each = inside.map((file) => readable(fileName(file, folder), relative(folder, file), folder));
  return { files: each.flatMap(({ files }) => files), problems: each.flatMap(({ problems }) => problems) };
}

function readable(file: string, path: string, folder: string): FoundFiles {
  const read = readText(file, folder);
  return typeof read === 'string'
    ? { files: [file], problems: [] }
    : { files: [], problems: [`"${path}" ${read.problem}`] };
}

/** The name that a file goes by: its path from the folder, or its whole path where it lies on another drive. */
export function fileName(path: string, folder: string): string {
  const from = relative(folder, path);
  return (isAbsolute(from) ? path : from).split(sep).join('/');
}

const utf8 = new TextDecoder('utf-8', { fatal: true });

/** A text without its byte order mark, or why it cannot be read. */
export function readText(file: string, folder: string): string | { readonly problem: string } {
  try {
    const bytes = readFileSync(resolve(folder, file));
    if (bytes.includes(0)) return { problem: 'is no text: it holds zero bytes. Give a card, saved as UTF-8.' };
    return utf8.decode(bytes);
  } catch (error) {
    if (error instanceof TypeError) return { problem: 'is not saved as UTF-8. Save it as UTF-8 and try again.' };
    return { problem: `cannot be read: ${(error as Error).message}` };
  }
}

/** Files of this machine, for the server. */
export function diskProvider(folder: string): FileProvider {
  return {
    readText(file) {
      const text = readText(file, folder);
      return typeof text === 'string' ? text : undefined;
    },
    readBytes(file) {
      try {
        return readFileSync(resolve(folder, file));
      } catch {
        return undefined;
      }
    },
  };
}
