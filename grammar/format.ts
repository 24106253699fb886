/** The usual layout of a card: the same words, signs, texts and comments, with other blanks between them. */
import type { Span } from '../shared/text.ts';
import { layOut } from './format/layout.ts';
import { marksOf } from './format/marks.ts';
import { type Piece, type Place, piecesOf } from './format/pieces.ts';
import { stretchesWithSlips } from './format/slips.ts';
import { parse } from './parse.ts';
import type { Parsed } from './syntax.ts';

export interface FormatEdit extends Span {
  readonly newText: string;
}

/** The text in the usual layout. What has a slip in it stays as it is written; where a slip cannot be laid to a part, all does. */
export function format(text: string): string {
  return edited(text, formatEdits(text));
}

/** The edits that bring a text into the usual layout, or those of them that touch a part of it; in order and apart. */
export function formatEdits(text: string, within: Span = { start: 0, end: text.length }): FormatEdit[] {
  return stableEdits(text).filter((edit) => edit.start <= within.end && within.start <= edit.end);
}

/** Where a text with slips would be read, and so laid out, in another way afterwards, it is left as it is. */
function stableEdits(text: string): FormatEdit[] {
  const parsed = parse(text);
  const edits = editsFor(parsed);
  if (parsed.problems.length === 0 || edits.length === 0) return edits;
  return editsFor(parse(edited(text, edits))).length === 0 ? edits : [];
}

function editsFor(parsed: Parsed): FormatEdit[] {
  const asWritten = stretchesWithSlips(parsed);
  if (asWritten === undefined) return [];
  const pieces = piecesOf(parsed, asWritten);
  const places = layOut(pieces, marksOf(parsed.file.declarations, asWritten, pieces));
  return [...editsOf(parsed.text, pieces, places)];
}

function edited(text: string, edits: readonly FormatEdit[]): string {
  let result = '';
  let at = 0;
  for (const edit of edits) {
    result += text.slice(at, edit.start) + edit.newText;
    at = edit.end;
  }
  return result + text.slice(at);
}

function* editsOf(text: string, pieces: readonly Piece[], places: readonly Place[]): Generator<FormatEdit> {
  const lineEnd = text.includes('\r\n') ? '\r\n' : '\n';
  let at = text.startsWith('\ufeff') ? 1 : 0;
  for (const [index, piece] of pieces.entries()) {
    const { lines, blanks } = places[index] as Place;
    const before = lineEnd.repeat(lines) + ' '.repeat(blanks);
    if (text.slice(at, piece.start) !== before) yield { start: at, end: piece.start, newText: before };
    if (text.slice(piece.start, piece.end) !== piece.text) yield { ...piece, newText: piece.text };
    at = piece.end;
  }
  const atEnd = pieces.length === 0 ? '' : lineEnd;
  if (text.slice(at) !== atEnd) yield { start: at, end: text.length, newText: atEnd };
}
