/** The parts that a check of many files is made of. Each is worked out by itself, on any thread, and says what from. */
import { createHash } from 'node:crypto';
import { type FileProvider, type FileResult, openWorkspace, type SettingsOf } from '../../../server/api.ts';
import type { Finding } from '../../../shared/finding.ts';

export type Task =
  | { readonly kind: 'file'; readonly file: string }
  /** Which fixes of these findings, all in this file, are sound. */
  | { readonly kind: 'fixes'; readonly file: string; readonly findings: readonly Finding[] };

/** Undefined where the file is not there. */
export type Answer = FileResult | readonly Finding[] | undefined;

/** Something that an answer rests on, with its digest; null where there is no such file. */
export type Source = readonly [sort: 'text' | 'bytes' | 'settings', file: string, digest: string | null];

export interface Done {
  readonly answer: Answer;
  readonly sources: readonly Source[];
}

export type DigestOf = (sort: Source[0], file: string) => string | null;

export function digest(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}

/** What sources give now, each looked at once. */
export function digestsFrom(provider: FileProvider, settingsOf: SettingsOf): DigestOf {
  const known = new Map<string, string | null>();
  const look: Record<Source[0], (file: string) => string | Uint8Array | undefined> = {
    text: provider.readText,
    bytes: (file) => provider.readBytes?.(file),
    settings: (file) => JSON.stringify(settingsOf(file)),
  };
  return (sort, file) => {
    const key = `${sort} ${file}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const content = look[sort](file);
    const now = content === undefined ? null : digest(content);
    known.set(key, now);
    return now;
  };
}

/** Each task has a workspace of its own: what it asks for is all that its answer rests on, and nothing of it stays in memory. */
export function workOut(task: Task, provider: FileProvider, settingsOf: SettingsOf): Done {
  const sources = new Map<string, Source>();
  const note = (sort: Source[0], file: string, content: string | Uint8Array | undefined) =>
    sources.set(`${sort} ${file}`, [sort, file, content === undefined ? null : digest(content)]);
  const api = openWorkspace(
    {
      readText: (file) => noted('text', file, provider.readText(file)),
      readBytes: (file) => noted('bytes', file, provider.readBytes?.(file)),
    },
    (file) => {
      const settings = settingsOf(file);
      note('settings', file, JSON.stringify(settings));
      return settings;
    },
  );
  const answer = task.kind === 'file' ? api.fileResult(task.file) : api.soundFixes(task.findings);
  return { answer, sources: [...sources.values()] };

  function noted<Content extends string | Uint8Array>(sort: Source[0], file: string, content: Content | undefined) {
    note(sort, file, content);
    return content;
  }
}
