/** The inside of quoted texts: escapes and slots. */
import type { Span } from '../shared/text.ts';
import { endOfName, isClosedText } from './scan.ts';
import type { Name, Text, TextSlot, TextWords } from './syntax.ts';
import { endOf, type Token } from './tokens.ts';

export interface ReadText {
  readonly text: Text;
  /** Braces that begin no slot. */
  readonly strayBraces: readonly Span[];
}

/** One or more quoted pieces as one text. */
export function readText(pieces: readonly Token[]): ReadText {
  const strayBraces: Span[] = [];
  const read = pieces.map((piece) => readPiece(piece, strayBraces));
  const strings = pieces.map((piece) => ({ start: piece.startOffset, end: endOf(piece) }));
  const start = (strings[0] as Span).start;
  const end = (strings.at(-1) as Span).end;
  const value = read.map((piece) => piece.value).join(' ');
  return { text: { type: 'text', start, end, value, segments: joined(read, strings), strings }, strayBraces };
}

interface Piece {
  readonly value: string;
  readonly segments: readonly (TextWords | TextSlot)[];
}

function readPiece({ image, startOffset }: Token, strayBraces: Span[]): Piece {
  const inside = image.slice(1, isClosedText(image) ? -1 : undefined);
  const offset = startOffset + 1;
  if (inside === '') return { value: inside, segments: [] };
  if (!/[{\\]/.test(inside)) {
    const words: TextWords = { type: 'words', value: inside, start: offset, end: offset + inside.length };
    return { value: inside, segments: [words] };
  }
  const segments: (TextWords | TextSlot)[] = [];
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
  return { value, segments };
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
function joined(pieces: readonly Piece[], strings: readonly Span[]): Piece['segments'] {
  const [first] = pieces;
  if (first && pieces.length === 1) return first.segments;
  return pieces.flatMap(({ segments }, index) => {
    const { start } = strings[index] as Span;
    return index === 0 ? segments : [{ type: 'words', value: ' ', start, end: start }, ...segments];
  });
}
