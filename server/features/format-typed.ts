/** Formatting while typing: only the line that was just ended, and nothing of the line that is being typed. */
import { type FormatEdit, formatEdits } from '../../grammar/format.ts';
import type { Snapshot } from '../snapshot.ts';

/** @param typed the character before the offset: a line end, or a brace that closed a block. */
export function formatTyped({ text, lines }: Snapshot, offset: number, typed: string): FormatEdit[] {
  const { line } = lines.positionAt(offset);
  const ended = typed === '\n' ? line - 1 : line;
  const start = lines.offsetAt({ line: ended, column: 0 });
  const end = start + lines.lineText(ended).length;
  return formatEdits(text, { start, end }).filter(
    (edit) => start < edit.end && edit.end <= end && !breaksLine(text, edit) && !isColumn(text, edit, start),
  );
}

/** Where a line ends is for the writer to say: what belongs on it may not have been typed yet. */
function breaksLine(text: string, { start, end, newText }: FormatEdit): boolean {
  return newText.split('\n').length !== text.slice(start, end).split('\n').length;
}

/** Columns are for many lines at once: one line by itself, ahead of those that are still to be typed, fits none. */
function isColumn(text: string, { start, end, newText }: FormatEdit, startOfLine: number): boolean {
  return startOfLine < start && /^ {2,}$/.test(newText) && /^ +$/.test(text.slice(start, end));
}
