/** Formatting while typing: only the line that was just ended, and nothing of the line that is being typed. */
import { type FormatEdit, formatEdits } from '../../grammar/format.ts';
import { lex, surplusBraces } from '../../grammar/tokens.ts';
import type { Snapshot } from '../snapshot.ts';

/** @param typed the character before the offset: a line end, or a brace that closed a block. */
export function formatTyped({ text, lines }: Snapshot, offset: number, typed: string): FormatEdit[] {
  const { line } = lines.positionAt(offset);
  const ended = typed === '\n' ? line - 1 : line;
  const start = lines.offsetAt({ line: ended, column: 0 });
  const end = start + lines.lineText(ended).length;
  const ofLine = formatEdits(text, { start, end }).filter(
    (edit) => start < edit.end && edit.end <= end && !isColumn(text, edit, start),
  );
  return [...ofLine, ...closedTwice(text, offset)];
}

/** Columns are for many lines at once: one line by itself, ahead of those that are still to be typed, fits none. */
function isColumn(text: string, { start, end, newText }: FormatEdit, startOfLine: number): boolean {
  return startOfLine < start && /^ {2,}$/.test(newText) && /^ +$/.test(text.slice(start, end));
}

/** An editor that closes a block where it is opened has set a brace on the next line: whoever types one too has one too many. */
function closedTwice(text: string, offset: number): FormatEdit[] {
  const isClosed = /\}\s*$/.test(text.slice(0, offset));
  const twin = isClosed && /^[^\S\n]*\n\s*\}/.exec(text.slice(offset));
  if (!twin || surplusBraces(lex(text).tokens) <= 0) return [];
  return [{ start: offset, end: offset + twin[0].length, newText: '' }];
}
