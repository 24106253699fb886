/** The sentences of a text as they stand in the source, so that a finding can point at one, and how many words each has. */

import type { Text } from '../../../grammar/syntax.ts';
import { lazily } from '../../../shared/lazily.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { literally, type Span } from '../../../shared/text.ts';
import { findUnit } from '../../../shared/units.ts';

export interface Sentence extends Span {
  /** As written, with slots and escapes. */
  readonly text: string;
}

const segmenter = lazily(() => new Intl.Segmenter('en', { granularity: 'sentence' }));

/** How many characters of one text are read as sentences: a longer one is a slip, or would keep the writer waiting. */
export const mostRead = 50_000;

/** So many sentences or texts are remembered at most. */
const mostKept = 10_000;
/** By what the text is written as: most stand in the next version of a file as they do in this one. */
const knownAsWritten = new Map<string, readonly Sentence[]>();

/** It stands where its text does, wherever that moves to. */
class SentenceInText implements Sentence {
  constructor(
    private readonly within: Text,
    private readonly asWritten: Sentence,
  ) {}

  get text(): string {
    return this.asWritten.text;
  }

  get start(): number {
    return this.within.start + this.asWritten.start;
  }

  get end(): number {
    return this.within.start + this.asWritten.end;
  }
}

const known = new WeakMap<Text, { readonly value: string; readonly sentences: readonly Sentence[] }>();

/** The sentences of a text. */
export function sentencesOf(text: Text, source: string): readonly Sentence[] {
  const before = known.get(text);
  // Another letter may have been typed into the text.
  if (before?.value === text.value) return before.sentences;
  const sentences = asWritten(text, source).map((sentence) => new SentenceInText(text, sentence));
  known.set(text, { value: text.value, sentences });
  return sentences;
}

/** As if the text began where its file does; several findings read them, so each text is taken apart once. */
function asWritten(text: Text, source: string): readonly Sentence[] {
  const written = source.slice(text.start, text.end);
  const before = knownAsWritten.get(written);
  if (before) return before;
  // A stretch of a text keeps the whole text in memory, a copy does not.
  const sentences = structuredClone(takenApart(text, source).map((sentence) => movedBy(-text.start, sentence)));
  if (knownAsWritten.size >= mostKept) knownAsWritten.clear();
  knownAsWritten.set(structuredClone(written), sentences);
  return sentences;
}

function movedBy(offset: number, { text, start, end }: Sentence): Sentence {
  return { text, start: start + offset, end: end + offset };
}

function takenApart(text: Text, source: string): Sentence[] {
  const pieces = piecesOf(text, source);
  const whole = pieces
    .map((piece) => piece.text)
    .join(' ')
    .slice(0, mostRead);
  const sentences: Sentence[] = [];
  for (const { segment, index } of segmentsOf(whole)) {
    const trimmed = segment.trim();
    if (trimmed === '') continue;
    const from = index + segment.indexOf(trimmed);
    const end = sourceOffset(pieces, from + trimmed.length - 1) + 1;
    sentences.push({ text: trimmed, start: sourceOffset(pieces, from), end });
  }
  return sentences;
}

/** The sentences of a text that is not looked up in its source. */
export const sentencesIn = remembering((text) =>
  [...segmentsOf(text.slice(0, mostRead))].map(({ segment }) => segment.trim()).filter(Boolean),
);

/** Looks at a text once, and keeps what it sees: in the next version of a file most texts are the same. */
export function remembering<What>(look: (text: string) => Iterable<What>): (text: string) => readonly What[] {
  const known = new Map<string, readonly What[]>();
  return (text) => {
    const before = known.get(text);
    if (before) return before;
    if (known.size >= mostKept) known.clear();
    // A stretch of a text keeps the whole text in memory, a copy does not.
    const copy = structuredClone(text);
    const seen = [...look(copy)];
    known.set(copy, seen);
    return seen;
  };
}

/** The signs after which a sentence may end: a stop does not end it before a digit. By UAX #29, Unicode Text Segmentation. */
const mayEndBefore =
  /[.\u2024\uFE52\uFF0E](?!\p{Nd}|$)|(?![.\u2024\uFE52\uFF0E])[\p{Sentence_Terminal}\r\n\u0085\u2028\u2029](?!$)/u;

/** The segmenter's time grows with the square of its text: a long one is given to it in stretches of about so many characters. */
const stretch = 2000;

function* segmentsOf(text: string): Iterable<{ readonly segment: string; readonly index: number }> {
  // Most texts of a card are one sentence, and a segmenter is slow to make.
  if (!mayEndBefore.test(text)) return yield { segment: text, index: 0 };
  let from = 0;
  for (let length = stretch; from < text.length; ) {
    const last = from + length >= text.length;
    const segments = [...segmenter().segment(text.slice(from, from + length))];
    // Where a stretch is cut off, its last sentence may go on: it is read again with what follows.
    const whole = last ? segments : segments.slice(0, -1);
    for (const { segment, index } of whole) yield { segment, index: from + index };
    const read = last ? length : (segments.at(-1)?.index ?? 0);
    from += read;
    length = read === 0 ? length * 2 : stretch;
  }
}

/** The span in the source of a stretch of a sentence. */
export function within(sentence: Sentence, from: number, length: number): Span {
  const inOneString = sentence.end - sentence.start === sentence.text.length;
  // A sentence that runs over two strings is longer in the source than in its text: then it is marked as a whole.
  const { start, end } = sentence;
  return inOneString ? { start: start + from, end: start + from + length } : { start, end };
}

/** The inside of one string, and where it begins in the joined text and in the source. */
interface Piece {
  readonly text: string;
  readonly joined: number;
  readonly source: number;
}

function piecesOf({ strings }: Text, source: string): Piece[] {
  let joined = 0;
  return strings.map(({ start, end }) => {
    const text = source.slice(start + 1, source[end - 1] === '"' && end - 1 > start ? end - 1 : end);
    const piece = { text, joined, source: start + 1 };
    joined += text.length + 1;
    return piece;
  });
}

function sourceOffset(pieces: readonly Piece[], joined: number): number {
  const piece = pieces.findLast((one) => one.joined <= joined) as Piece;
  return piece.source + joined - piece.joined;
}

/**
 * Words as writing rules for procedures count them: what stands in parentheses or quotation marks is one word, so is a number with
 * its unit, a group joined by hyphens, and the label that a slot stands for.
 */
export function countWords(sentence: string): number {
  const joined = sentence
    .replace(/\([^()]*\)|\\"[^"]*\\"|\{[^{}]*\}/gu, ' x ')
    .replace(/(\d[\d.,]*)\s*([%°\p{L}][\p{L}/.·°-]*)/gu, (figure, _number, unit) =>
      isUnit(unit.replace(/[.-]+$/u, '')) ? 'x' : figure,
    );
  return joined.split(/\s+/u).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

function isUnit(word: string): boolean {
  return findUnit(word) !== undefined || /^(?:second|minute|hour|day|degree)s?$/i.test(word);
}

/** A sentence without what leads it: `If the lamp is on, close …` becomes `close …`, with how much was taken off. */
export function withoutCondition(sentence: string): { readonly text: string; readonly from: number } {
  const condition =
    /^(?:if|when|whenever|where|before|after|while|until|unless|once|since|because|as|upon|outside|otherwise|with|without|during|at|by|in|on|from|for|to|using)\b[^,]*,\s*(?:(?:and|or) (?:if|when)\b[^,]*,\s*)*(?:then\s+)?/i.exec(
      sentence,
    )?.[0] ?? '';
  return { text: sentence.slice(condition.length), from: condition.length };
}

/** What is done, and as often what something is called or what it is like: `set screws`, `turn signals`, `a cut cover`. */
const ambiguous =
  /^(?:bleed|cap|charge|check|clamp|clean|clear|close|cover|cut|drain|dry|empty|fill|fit|flush|guard|insert|level|lift|lock|lower|measure|monitor|open|pin|place|plug|press|pull|push|read|record|release|reset|return|rinse|seal|select|set|start|stop|support|switch|tag|test|torque|turn|vent|wipe)$/i;

/** Whether the word with which a match ends is an order: one that may be none is one where something follows that it is done to. */
export function isOrderAt({ 0: whole, index }: RegExpExecArray, text: string): boolean {
  const word = /\p{L}+$/u.exec(whole)?.[0] ?? '';
  return (
    !ambiguous.test(word) ||
    /^\s+(?:(?:for|that|if|whether|the|an?|all|both|each|every|it|them|this|these|any|one|two|three|four)\b|\{|\p{Lu}|\d)/u.test(
      text.slice(index + whole.length),
    )
  );
}

const knownWords = new WeakMap<readonly string[], Map<string, RegExp>>();

/** Finds any of the words or phrases, whole and in either case, made once for a list. `undefined` where the list is empty. */
export function anyOf(words: readonly string[], before = '', flags = 'giu'): RegExp | undefined {
  if (words.length === 0) return undefined;
  const made = getOrInsert(knownWords, words, () => new Map());
  return getOrInsert(made, `${flags} ${before}`, () => expressionOf(words, before, flags));
}

function expressionOf(words: readonly string[], before: string, flags: string): RegExp {
  const longestFirst = [...words].sort((a, b) => b.length - a.length).map(escaped);
  return new RegExp(`${before}(?<![\\p{L}\\p{N}-])(?:${longestFirst.join('|')})(?![\\p{L}\\p{N}-])`, flags);
}

function escaped(word: string): string {
  return literally(word).replace(/\s+/g, '\\s+');
}
