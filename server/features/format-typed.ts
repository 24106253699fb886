/** Formatting while typing: only the line that was just ended, and nothing of the line that is being typed. */
import { openedBy } from '../../grammar/braces.ts';
import { type FormatEdit, formatEdits } from '../../grammar/format.ts';
import { isClosedText } from '../../grammar/scan.ts';
import { lex, QuotedText } from '../../grammar/tokens.ts';
import type { Span } from '../../shared/text.ts';
import { indentAt } from '../findings/support/edits.ts';
import type { Snapshot } from '../snapshot.ts';

/** @param typed the character before the offset: a line end, or a brace that closed a block. */
export function formatTyped({ text, lines }: Snapshot, offset: number, typed: string): FormatEdit[] {
  const { line } = lines.positionAt(offset);
  const ended = typed === '\n' ? line - 1 : line;
  const start = lines.offsetAt({ line: ended, column: 0 });
  const end = start + lines.lineText(ended).length;
  const quotation = typed === '\n' ? endOfTextMoved(text, { start, end }, offset) : [];
  if (quotation.length > 0) return quotation;
  const edits = formatEdits(text, { start, end }).filter(
    (edit) => start < edit.end && edit.end <= end && !breaksLine(text, edit) && !isColumn(text, edit, start),
  );
  return edits.length > 0 ? edits : dedented(text, { start, end }, offset);
}

/** Ended with the cursor before the quotation mark that the editor had put there: the text ends where the line does. */
function endOfTextMoved(text: string, { start, end }: Span, offset: number): FormatEdit[] {
  const last = lex(text.slice(start, end)).tokens.at(-1);
  const isAlone = /^"[ \t]*(?:\r?\n|$)/.test(text.slice(offset));
  if (!isAlone || last?.tokenType !== QuotedText || isClosedText(last.image)) return [];
  return [
    { start: end, end, newText: '"' },
    { start: offset, end: offset + 1, newText: '' },
  ];
}

/** A closing brace by itself goes under the line that it closes, even where the text cannot be laid out yet: an editor that is busy leaves it where it is. */
function dedented(text: string, line: Span, offset: number): FormatEdit[] {
  const indent = /^[ \t]*(?=\}\s*$)/.exec(text.slice(line.start, line.end))?.[0];
  const opening = indent === undefined ? undefined : openedBy(text, line.start + indent.length);
  if (indent === undefined || opening === undefined) return [];
  const newText = indentAt(text, opening);
  if (newText === indent) return [];
  const own = { start: line.start, end: line.start + indent.length, newText };
  const next = /^\r?\n([ \t]*)(?=\r?\n|$)/.exec(text.slice(line.end))?.[1];
  return offset > line.end && next === indent ? [own, { start: offset - next.length, end: offset, newText }] : [own];
}

/** Where a line ends is for the writer to say: what belongs on it may not have been typed yet. */
function breaksLine(text: string, { start, end, newText }: FormatEdit): boolean {
  return newText.split('\n').length !== text.slice(start, end).split('\n').length;
}

/** Columns are for many lines at once: one line by itself, ahead of those that are still to be typed, fits none. */
function isColumn(text: string, { start, end, newText }: FormatEdit, startOfLine: number): boolean {
  return startOfLine < start && /^ {2,}$/.test(newText) && /^ +$/.test(text.slice(start, end));
}
