/** Formatting while typing: only the line that was just ended, and nothing of the line that is being typed. */
import { type FormatEdit, formatEdits } from '../../grammar/format.ts';
import type { Snapshot } from '../snapshot.ts';

/** @param typed the character before the offset: a line end, or a brace that closed a block. */
export function formatTyped({ text, lines }: Snapshot, offset: number, typed: string): FormatEdit[] {
  const { line } = lines.positionAt(offset);
  const ended = typed === '\n' ? line - 1 : line;
  const start = lines.offsetAt({ line: ended, column: 0 });
  const end = start + lines.lineText(ended).length;
  return formatEdits(text, { start, end }).filter((edit) => start < edit.end && edit.end <= end);
}
