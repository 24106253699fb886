/** Sets pieces in lines: decides what stands between each piece and the one before. */
import { align } from './columns.ts';
import type { Marks } from './marks.ts';
import type { Piece, Place } from './pieces.ts';

/** Braces on one line stay there while the line is not longer than this. */
const longestLine = 120;
const indentation = 2;
/** A line that goes on with the sentence of the line before stands this many levels further in. */
const goesOn = 2;
/** Blanks between sentences on one line. */
const betweenSentences = 3;
const beforeComment = 2;

interface Setting {
  readonly pieces: readonly Piece[];
  readonly marks: Marks;
  /** Opening braces whose inside stands on their line. */
  readonly flat: Set<number>;
  /** Opening braces on a line with which a sentence goes on, whose inside stands further in than that line. */
  readonly deep: Set<number>;
  /** The opening braces around the present piece. */
  readonly open: number[];
  readonly places: Place[];
  /** For each piece, the next that is no comment. */
  readonly next: readonly number[];
}

export function layOut(pieces: readonly Piece[], marks: Marks): Place[] {
  const setting: Setting = {
    pieces,
    marks,
    flat: new Set(),
    deep: new Set(),
    open: [],
    places: [],
    next: nextWritten(pieces),
  };
  const closing = closingBraces(pieces);
  let column = 0;
  let goesOnHere = false;
  for (const [index, piece] of pieces.entries()) {
    const place = placeOf(index, setting);
    setting.places.push(place);
    column = (place.lines > 0 ? 0 : column) + place.blanks + piece.text.length;
    if (place.lines > 0) goesOnHere = place.blanks > indentation * levelOf(setting);
    if (piece.text === '{') {
      if (goesOnHere && marks.hanging.has(index)) setting.deep.add(index);
      if (isFlat(index, closing.get(index), column, setting)) setting.flat.add(index);
      setting.open.push(index);
    } else if (piece.text === '}') setting.open.pop();
  }
  align(pieces, setting.places, marks, setting.flat);
  return setting.places;
}

function nextWritten(pieces: readonly Piece[]): number[] {
  const next: number[] = [];
  let written = pieces.length;
  for (let index = pieces.length - 1; index >= 0; index--) {
    next[index] = written;
    if (!pieces[index]?.comment) written = index;
  }
  return next;
}

// ---------------------------------------------------------------- braces

function closingBraces(pieces: readonly Piece[]): Map<number, number> {
  const open: number[] = [];
  const closing = new Map<number, number>();
  for (const [index, { text }] of pieces.entries()) {
    if (text === '{') open.push(index);
    else if (text === '}') closing.set(open.pop() ?? -1, index);
  }
  return closing;
}

/** Whether what stands in braces stays on one line: it is written so, it is short, and it is no stage or the like. */
function isFlat(brace: number, close: number | undefined, column: number, setting: Setting): boolean {
  const { pieces, marks, open, flat } = setting;
  if (close === undefined) return false;
  if (close === brace + 1 || flat.has(open.at(-1) ?? -1)) return true;
  if (marks.tall.has(brace)) return false;
  const inside = pieces.slice(brace + 1, close + 1);
  if (inside.some((piece) => piece.lineEnds > 0 || /[\r\n]/.test(piece.text))) return false;
  const width = inside.reduce((sum, piece, at) => sum + piece.text.length + blanksBefore(brace + 1 + at, setting), 0);
  return column + width <= longestLine;
}

function isInFlatBraces({ open, flat }: Setting): boolean {
  return flat.has(open.at(-1) ?? -1);
}

function levelOf({ open, flat, deep }: Setting): number {
  return open.reduce((level, brace) => level + (flat.has(brace) ? 0 : deep.has(brace) ? 1 + goesOn : 1), 0);
}

// ---------------------------------------------------------------- one piece

function placeOf(index: number, setting: Setting): Place {
  const { pieces, marks } = setting;
  const piece = pieces[index] as Piece;
  const previous = pieces[index - 1];
  if (previous === undefined) return { lines: 0, blanks: 0 };
  if (piece.comment) return placeOfComment(index, setting);
  const inFlat = isInFlatBraces(setting);
  const level = levelOf(setting);
  if (piece.text === '}' && !inFlat) return newLine(index, level - 1, setting);
  if (marks.sentences.has(index) && !inFlat) return newLine(index, level, setting);
  const afterComment = previous.comment === 'line' || (previous.comment === 'block' && piece.lineEnds > 0);
  if (afterComment) return { lines: 1, blanks: indentation * (level + (standsAtLevel(index, setting) ? 0 : goesOn)) };
  if (piece.lineEnds > 0 && mayGoOnHere(index, setting)) return { lines: 1, blanks: indentation * (level + goesOn) };
  return { lines: 0, blanks: blanksBefore(index, setting) };
}

/** A new line; one blank line before it is kept, but not at the ends of a block. */
function newLine(index: number, level: number, { pieces }: Setting): Place {
  const piece = pieces[index] as Piece;
  const atEdge = pieces[index - 1]?.text === '{' || piece.text === '}';
  return { lines: piece.lineEnds > 1 && !atEdge ? 2 : 1, blanks: Math.max(level, 0) * indentation };
}

/** A comment stays on its line, or on a line of its own with the indentation of what follows. */
function placeOfComment(index: number, setting: Setting): Place {
  const { pieces, marks } = setting;
  const piece = pieces[index] as Piece;
  if (piece.lineEnds === 0) return { lines: 0, blanks: piece.comment === 'line' ? beforeComment : 1 };
  const next = setting.next[index] as number;
  const between = next === pieces.length || marks.sentences.has(next) || pieces[next]?.text === '}';
  return newLine(index, levelOf(setting) + (between ? 0 : goesOn), setting);
}

/** After a comment an opening brace, or the `else` of a block, goes on at the level of its sentence. */
function standsAtLevel(index: number, { pieces }: Setting): boolean {
  const { text } = pieces[index] as Piece;
  return text === '{' || text === 'else';
}

/** Whether a sentence that the writer broke before this piece stays broken. */
function mayGoOnHere(index: number, { pieces, marks }: Setting): boolean {
  const before = pieces[index - 1]?.text ?? '';
  const inText = before.startsWith('"') && pieces[index]?.text.startsWith('"');
  return marks.soft.has(index) || before === ',' || inText === true;
}

/** Blanks between two pieces on one line. */
function blanksBefore(index: number, { pieces, marks }: Setting): number {
  const { text } = pieces[index] as Piece;
  const before = pieces[index - 1]?.text ?? '';
  if (marks.tight.has(index) || text === ',' || text === ')' || text === '.') return 0;
  if (before === '(' || before === '.') return 0;
  const separate = marks.sentences.has(index) && before !== ',' && before !== '{' && !pieces[index - 1]?.comment;
  return separate ? betweenSentences : 1;
}
