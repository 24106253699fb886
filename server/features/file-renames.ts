/** `use` lines follow when files are moved or renamed. */
import type { TextEdit } from '../../shared/finding.ts';
import { wayBetween } from '../binding/files.ts';
import type { Snapshot } from '../snapshot.ts';
import { links } from './links.ts';

export interface Moved {
  readonly from: string;
  readonly to: string;
}

/** The edits in one file, which may itself be among those moved. Folders move everything in them. */
export function followMoves(snapshot: Snapshot, moves: readonly Moved[]): TextEdit[] {
  const here = movedTo(snapshot.file, moves);
  return links(snapshot).flatMap(({ span, file }) => {
    if (file.startsWith('std:')) return [];
    const target = movedTo(file, moves);
    if (here === snapshot.file && target === file) return [];
    const newText = wayBetween(here, target);
    return newText === snapshot.text.slice(span.start, span.end)
      ? []
      : [{ place: { file: snapshot.file, ...span }, newText }];
  });
}

function movedTo(file: string, moves: readonly Moved[]): string {
  for (const { from, to } of moves) {
    if (file === from) return to;
    if (file.startsWith(`${from}/`)) return to + file.slice(from.length);
  }
  return file;
}
