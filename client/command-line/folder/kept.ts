/**
 * Answers of earlier runs, a file each. One is taken only while this very program would read the same texts, figures and settings
 * for it, byte by byte, and while it is itself as it was written.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
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
  let canWrite = true;
  return {
    find(task) {
      const entry = read(pathOf(task));
      if (entry?.of !== keyOf(task)) return undefined;
      if (!entry.sources.every(([sort, file, then]) => digestOf(sort, file) === then)) return undefined;
      return { answer: entry.answer };
    },
    keep(task, { answer, sources }) {
      if (!canWrite) return;
      try {
        mkdirSync(at, { recursive: true });
        // Systems for versions pass over it.
        writeFileSync(join(at, '.gitignore'), '*\n');
        write(pathOf(task), { of: keyOf(task), sources, ...(answer && { answer }) });
      } catch {
        // A folder that may not be written, or a full disk, costs time and nothing else.
        canWrite = false;
      }
    },
  };
}

/** The digest before the text tells whether all of it is there. */
function write(path: string, entry: Entry): void {
  const text = JSON.stringify(entry);
  writeFileSync(path, `${digest(text)}\n${text}`);
}

function read(path: string): Entry | undefined {
  try {
    const [, stamp, text] = /^(.*)\n(.*)$/s.exec(readFileSync(path, 'utf8')) ?? [];
    return text !== undefined && digest(text) === stamp ? JSON.parse(text) : undefined;
  } catch {
    return undefined;
  }
}
