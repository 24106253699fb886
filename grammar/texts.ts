/** The inside of quoted texts: escapes and slots. */
import type { Span } from '../shared/text.ts';
import { endOfName, isClosedText } from './scan.ts';
import type { Name, Text, TextSlot, TextWords } from './syntax.ts';

interface QuotedPiece extends Span {
  readonly image: string;
}

export interface ReadText {
  readonly text: Text;
  /** Braces that begin no slot. */
  readonly strayBraces: readonly Span[];
}

/** One or more quoted pieces as one text. */
export function readText(pieces: readonly QuotedPiece[]): ReadText {
  const segments: (TextWords | TextSlot)[] = [];
  const strayBraces: Span[] = [];
  const values: string[] = [];
  for (const piece of pieces) values.push(readPiece(piece, segments, strayBraces));
  const first = pieces[0] as QuotedPiece;
  const last = pieces[pieces.length - 1] as QuotedPiece;
  const strings = pieces.map(({ start, end }) => ({ start, end }));
  const text: Text = {
    type: 'text',
    start: first.start,
    end: last.end,
    value: values.join(' '),
    segments: joined(segments, pieces),
    strings,
  };
  return { text, strayBraces };
}

/** Adds the segments of one piece and gives its value. */
function readPiece(piece: QuotedPiece, segments: (TextWords | TextSlot)[], strayBraces: Span[]): string {
  const inside = piece.image.slice(1, isClosedText(piece.image) ? -1 : undefined);
  const offset = piece.start + 1;
  if (!/[{\\]/.test(inside)) {
    if (inside !== '') segments.push({ type: 'words', value: inside, start: offset, end: offset + inside.length });
    return inside;
  }
  let value = '';
  let words = '';
  let wordsStart = 0;
  const endWords = (end: number): void => {
    if (words !== '') segments.push({ type: 'words', value: words, start: offset + wordsStart, end: offset + end });
    words = '';
  };
  for (let index = 0; index < inside.length; ) {
    if (words === '') wordsStart = index;
    const slot = inside[index] === '{' ? readSlot(inside, index, offset) : undefined;
    if (slot !== undefined) {
      endWords(index);
      segments.push(slot);
      value += inside.slice(index, slot.end - offset);
      index = slot.end - offset;
      continue;
    }
    const { character, length, stray } = readCharacter(inside, index);
    if (stray) strayBraces.push({ start: offset + index, end: offset + index + 1 });
    words += character;
    value += character;
    index += length;
  }
  endWords(inside.length);
  return value;
}

function readCharacter(inside: string, index: number): { character: string; length: number; stray: boolean } {
  const character = inside[index] as string;
  const next = inside[index + 1];
  if (character === '\\' && (next === '"' || next === '\\')) return { character: next, length: 2, stray: false };
  if (character === '{' && next === '{') return { character, length: 2, stray: false };
  return { character, length: 1, stray: character === '{' };
}

/** `{}`, `{name}` or `{gauge.limit}` at `index`. */
function readSlot(inside: string, index: number, offset: number): TextSlot | undefined {
  const nameEnd = endOfName(inside, index + 1);
  const name = nameBetween(inside, index + 1, nameEnd, offset);
  if (inside[nameEnd] === '}') return { type: 'slot', name, start: offset + index, end: offset + nameEnd + 1 };
  if (inside[nameEnd] !== '.' || name === undefined) return undefined;
  const limitEnd = endOfName(inside, nameEnd + 1);
  const limit = nameBetween(inside, nameEnd + 1, limitEnd, offset);
  if (inside[limitEnd] !== '}' || limit === undefined) return undefined;
  return { type: 'slot', name, limit, start: offset + index, end: offset + limitEnd + 1 };
}

function nameBetween(inside: string, start: number, end: number, offset: number): Name | undefined {
  if (start === end) return undefined;
  return { type: 'name', text: inside.slice(start, end), start: offset + start, end: offset + end };
}

/** Puts the space between two pieces into the words, so that the segments in a row read as the value does. */
function joined(segments: (TextWords | TextSlot)[], pieces: readonly QuotedPiece[]): readonly (TextWords | TextSlot)[] {
  if (pieces.length === 1) return segments;
  return pieces.flatMap((piece, index) => {
    const own = segments.filter((segment) => piece.start <= segment.start && segment.end <= piece.end);
    const space: TextWords = { type: 'words', value: ' ', start: piece.start, end: piece.start };
    return index === 0 ? own : [space, ...own];
  });
}
