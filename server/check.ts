/** Checks files and all that they use, and gives what a writer is told of them. */
import { finish, type InParts } from '../shared/parts.ts';
import { compareText } from '../shared/text.ts';
import { Conclusions, type SettingsOf, type Told } from './conclusions.ts';
import { type CheckedCard, type FileResult, fileResult } from './file-result.ts';
import type { Snapshot } from './snapshot.ts';
import type { Workspace } from './workspace.ts';

export interface Checked extends Told {
  /** The files that were asked for and those that they use. */
  readonly files: readonly string[];
  readonly cards: readonly CheckedCard[];
}

/** Checks files and all that they use, as those of a whole folder. */
export function check(workspace: Workspace, files: readonly string[], settingsOf: SettingsOf): Checked {
  return finish(checkInParts(workspace, files, settingsOf));
}

/** As `check`, a part of a proof or a sort of finding at a time. */
export function* checkInParts(
  workspace: Workspace,
  files: readonly string[],
  settingsOf: SettingsOf,
): InParts<Checked> {
  const results: FileResult[] = [];
  for (const snapshot of withUsedFiles(workspace, files)) {
    results.push(yield* fileResult(snapshot, workspace, settingsOf(snapshot.file)));
    yield;
  }
  return yield* conclude(results, settingsOf, files);
}

/** What a writer is told of files, with what is found across them; `whole` are those of folders that were looked through. */
export function* conclude(
  results: readonly FileResult[],
  settingsOf: SettingsOf,
  whole: readonly string[],
): InParts<Checked> {
  const conclusions = new Conclusions(settingsOf);
  for (const result of results) conclusions.put(result);
  yield* conclusions.lookAcross(whole);
  const { files } = conclusions;
  return {
    ...(yield* conclusions.toldOfAll()),
    files,
    get cards() {
      return [...results].sort((a, b) => compareText(a.file, b.file)).flatMap(({ cards }) => cards);
    },
  };
}

/** The files and what they use, each once, in the order of their paths. */
export function withUsedFiles(workspace: Workspace, files: readonly string[]): Snapshot[] {
  const asked = files.flatMap((file) => workspace.snapshot(file) ?? []);
  const used = asked.flatMap((snapshot) => snapshot.uses).flatMap((file) => workspace.snapshot(file) ?? []);
  return [...new Set([...asked, ...used])].sort((a, b) => compareText(a.file, b.file));
}
