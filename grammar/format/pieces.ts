/** The pieces of a text that the formatter sets: everything that is written, comments too, but no blank space. */
import type { Span } from '../../shared/text.ts';
import { findUnit } from '../../shared/units.ts';
import { all } from '../navigate.ts';
import type { Parsed } from '../syntax.ts';
import { endOf, lex } from '../tokens.ts';

export interface Piece extends Span {
  /** As it is written in the formatted text. */
  readonly text: string;
  readonly comment?: 'line' | 'block';
  /** How many lines end between the piece before and this one. */
  readonly lineEnds: number;
}

/** What stands before a piece: blanks on the same line, or the end of one line or two and the blanks of its indentation. */
export interface Place {
  readonly lines: 0 | 1 | 2;
  readonly blanks: number;
}

interface Found extends Span {
  readonly text: string;
  readonly comment?: 'line' | 'block';
}

/** `asWritten` are stretches with slips in them: each is one piece, left as it is. */
export function piecesOf(parsed: Parsed, asWritten: readonly Span[]): Piece[] {
  const broken = asWritten.map((stretch) => verbatim(parsed.text, stretch));
  const inBroken = coverOf(broken);
  const whole = [...broken, ...units(parsed).filter((unit) => !inBroken(unit))];
  const inWhole = coverOf(whole);
  const loose = [...tokens(parsed.text), ...parsed.comments.map(commentOf)].filter((found) => !inWhole(found));
  return [...whole, ...loose]
    .sort((a, b) => a.start - b.start)
    .map((found, index, sorted) => {
      const blank = parsed.text.slice(sorted[index - 1]?.end ?? 0, found.start);
      return { ...found, lineEnds: blank.split(/\r\n|\n|\r/).length - 1 };
    });
}

function verbatim(text: string, { start, end }: Span): Found {
  return { start, end, text: text.slice(start, end) };
}

/** Units in their first spelling. One with a comment inside is left in its pieces. */
function units({ text, file }: Parsed): Found[] {
  const written = all(file, 'unit').filter(({ start, end }) => end > start && !/\/[/*]/.test(text.slice(start, end)));
  return written.map((unit) => ({ start: unit.start, end: unit.end, text: findUnit(unit.text)?.symbol ?? unit.text }));
}

function tokens(text: string): Found[] {
  return lex(text).tokens.map((token) => ({
    start: token.startOffset,
    end: endOf(token),
    text: token.image === '±' ? '+/-' : token.image,
  }));
}

function commentOf({ text, start, end }: Found): Found {
  return { start, end, text: text.trimEnd(), comment: text.startsWith('//') ? 'line' : 'block' };
}

/** Tells whether a stretch lies in one of these, which are in the order of the text and apart. */
function coverOf(spans: readonly Span[]): (inner: Span) => boolean {
  const sorted = [...spans].sort((a, b) => a.start - b.start);
  return (inner) => {
    let low = 0;
    let high = sorted.length - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      const span = sorted[middle] as Span;
      if (inner.start < span.start) high = middle - 1;
      else if (inner.start >= span.end) low = middle + 1;
      else return true;
    }
    return false;
  };
}
