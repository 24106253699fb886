/** The usual layout of a card: the same words, signs, texts and comments, with other blanks between them. */
import type { Span } from '../shared/text.ts';
import { layOut } from './format/layout.ts';
import { marksOf } from './format/marks.ts';
import { type Piece, type Place, piecesOf } from './format/pieces.ts';
import { parse } from './parse.ts';
import type { Declaration, Parsed } from './syntax.ts';

export interface FormatEdit extends Span {
  readonly newText: string;
}

/**
 * The text in the usual layout. A declaration with a slip in it stays as it is written; where a slip cannot be laid to
 * one, the whole text does.
 */
export function format(text: string): string {
  let formatted = '';
  let at = 0;
  for (const edit of formatEdits(text)) {
    formatted += text.slice(at, edit.start) + edit.newText;
    at = edit.end;
  }
  return formatted + text.slice(at);
}

/** The edits that bring a text into the usual layout, or those of them that touch a part of it; in order and apart. */
export function formatEdits(text: string, within: Span = { start: 0, end: text.length }): FormatEdit[] {
  const parsed = parse(text);
  const asWritten = declarationsWithSlips(parsed);
  if (asWritten === undefined) return [];
  const pieces = piecesOf(parsed, asWritten);
  const places = layOut(pieces, marksOf(parsed.file.declarations, asWritten, pieces));
  const edits = [...editsOf(text, pieces, places)];
  return edits.filter((edit) => edit.start <= within.end && within.start <= edit.end);
}

/** The declarations that hold a problem; undefined where a problem lies in none. */
function declarationsWithSlips({ file, problems }: Parsed): ReadonlySet<Declaration> | undefined {
  const holders = problems.map(({ span }) =>
    file.declarations.find((declaration) => declaration.start <= span.start && span.end <= declaration.end),
  );
  const found = holders.filter((holder) => holder !== undefined);
  return found.length < holders.length ? undefined : new Set(found);
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
