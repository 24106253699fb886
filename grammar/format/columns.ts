/** Sets rows of one sort that stand one below the other in columns. */
import type { Marks, Row } from './marks.ts';
import type { Piece, Place } from './pieces.ts';

/** A row that would have to be moved further than this stands on its own. */
const furthest = 30;

interface RowOfLine {
  readonly start: number;
  /** The piece after the last one of the line. */
  readonly end: number;
  readonly sort: string;
  readonly columns: Row['columns'];
}

/** Widens blanks in `places`, which has a place for each piece. */
export function align(pieces: readonly Piece[], places: Place[], marks: Marks, flat: ReadonlySet<number>): void {
  for (const group of groupsOf(pieces, places, marks)) {
    const columns = group[0]?.columns.length ?? 0;
    for (let column = 0; column < columns; column++) alignColumn(column, group, pieces, places, flat);
    for (const row of group) if (row.sort === 'field') hang(row, pieces, places, marks.sentences);
  }
}

/**
 * Rows of one sort on lines that follow one another with no blank line between. Comments may stand between them, and the
 * lines with which a field goes on.
 */
function groupsOf(pieces: readonly Piece[], places: readonly Place[], { rows, sentences }: Marks): RowOfLine[][] {
  const groups: RowOfLine[][] = [];
  let last: RowOfLine | undefined;
  for (let start = 0; start < pieces.length; ) {
    const end = endOfLine(start, places);
    const row = rows.get(start);
    const next = row && { start, end, sort: row.sort, columns: row.columns };
    if (places[start]?.lines === 2) last = undefined;
    if (next && last && follows(next, last, places)) groups.at(-1)?.push(next);
    else if (next) groups.push([next]);
    const goesOn = last?.sort === 'field' && !sentences.has(start) && pieces[start]?.text !== '}';
    if (!pieces[start]?.comment && !goesOn) last = next;
    start = end;
  }
  return groups;
}

/** The lines with which a field goes on stand under its first text or name. */
function hang(row: RowOfLine, pieces: readonly Piece[], places: Place[], sentences: ReadonlySet<number>): void {
  const first = row.columns[0]?.piece;
  if (first === undefined || first >= row.end) return;
  const blanks = (places[row.start] as Place).blanks + positionOf(first, row.start, pieces, places);
  for (let at = row.end; at < pieces.length && !sentences.has(at) && pieces[at]?.text !== '}'; at++) {
    if (places[at]?.lines === 1 && !pieces[at]?.comment) places[at] = { lines: 1, blanks };
  }
}

function endOfLine(start: number, places: readonly Place[]): number {
  let end = start + 1;
  while (places[end]?.lines === 0) end++;
  return end;
}

function follows(next: RowOfLine, last: RowOfLine, places: readonly Place[]): boolean {
  const place = places[next.start] as Place;
  return next.sort === last.sort && place.blanks === (places[last.start] as Place).blanks;
}

function alignColumn(
  column: number,
  group: readonly RowOfLine[],
  pieces: readonly Piece[],
  places: Place[],
  flat: ReadonlySet<number>,
): void {
  const found: { piece: number; position: number }[] = [];
  for (const row of group) {
    const { piece, gap } = row.columns[column] as Row['columns'][number];
    if (piece === undefined || piece >= row.end || (pieces[piece]?.text === '{' && !flat.has(piece))) continue;
    places[piece] = { lines: 0, blanks: gap };
    found.push({ piece, position: positionOf(piece, row.start, pieces, places) });
  }
  const first = Math.min(...found.map(({ position }) => position));
  const near = found.filter(({ position }) => position <= first + furthest);
  const common = Math.max(...near.map(({ position }) => position));
  for (const { piece, position } of near) {
    places[piece] = { lines: 0, blanks: (places[piece] as Place).blanks + common - position };
  }
}

/** How far a piece stands from the start of its row. */
function positionOf(piece: number, start: number, pieces: readonly Piece[], places: readonly Place[]): number {
  let position = 0;
  for (let index = start; index < piece; index++) {
    position += (pieces[index] as Piece).text.length + (places[index + 1] as Place).blanks;
  }
  return position;
}
