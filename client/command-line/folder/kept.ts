/**
 * Answers of earlier runs, a file each. One is taken only while this very program would read the same texts, figures and settings
 * for it, byte by byte, and while it is itself as it was written.
 */
import { existsSync, lstatSync, mkdirSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Answer, type DigestOf, type Done, digest, type Source, type Task } from './tasks.ts';

/** Where the folder that a command runs in keeps them. */
export const keptFolder = '.cache/cardwright';

export interface Kept {
  readonly find: (task: Task) => { readonly answer: Answer } | undefined;
  readonly keep: (task: Task, done: Done) => void;
}

export const nothingKept: Kept = { find: () => undefined, keep: () => {} };

interface Entry {
  readonly of: string;
  readonly sources: readonly Source[];
  readonly answer?: Answer;
}

export function keptIn(folder: string, program: string, digestOf: DigestOf): Kept {
  const at = join(folder, keptFolder);
  const pathOf = ({ kind, file }: Task) => join(at, digest(`${kind} ${file}`));
  const keyOf = (task: Task) => digest(JSON.stringify([program, process.version, task]));
  let canWrite: boolean | undefined;
  return {
    find(task) {
      const entry = read(pathOf(task));
      if (entry?.of !== keyOf(task)) return undefined;
      if (!entry.sources.every(([sort, file, then]) => digestOf(sort, file) === then)) return undefined;
      return { answer: entry.answer };
    },
    keep(task, { answer, sources }) {
      try {
        canWrite ??= isMade(folder);
        if (canWrite) write(pathOf(task), { of: keyOf(task), sources, ...(answer && { answer }) });
      } catch {
        // A folder that may not be written, or a full disk, costs time and nothing else.
        canWrite = false;
      }
    },
  };
}

/** Makes the folder. False where a link leads elsewhere: whoever sent these cards may have laid it, to have something written there. */
function isMade(folder: string): boolean {
  const at = join(folder, keptFolder);
  mkdirSync(at, { recursive: true });
  if (realpathSync(at) !== join(realpathSync(folder), keptFolder)) return false;
  // Systems for versions pass over it.
  if (!existsSync(join(at, '.gitignore'))) writeAnew(join(at, '.gitignore'), '*\n');
  return true;
}

/** Never through a link that lies in the place of the file. */
function writeAnew(path: string, text: string): void {
  rmSync(path, { force: true });
  writeFileSync(path, text, { flag: 'wx' });
}

/** The digest before the text tells whether all of it is there. */
function write(path: string, entry: Entry): void {
  const text = JSON.stringify(entry);
  writeAnew(path, `${digest(text)}\n${text}`);
}

function read(path: string): Entry | undefined {
  try {
    if (!lstatSync(path).isFile()) return undefined;
    const [, stamp, text] = /^(.*)\n(.*)$/s.exec(readFileSync(path, 'utf8')) ?? [];
    return text !== undefined && digest(text) === stamp ? JSON.parse(text) : undefined;
  } catch {
    return undefined;
  }
}
