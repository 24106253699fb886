/** The sentences of a text as they stand in the source, so that a finding can point at one, and how many words each has. */
import type { Text } from '../../../grammar/syntax.ts';
import type { Span } from '../../../shared/text.ts';
import { findUnit } from '../../../shared/units.ts';

export interface Sentence extends Span {
  /** As written, with slots and escapes. */
  readonly text: string;
}

const segmenter = new Intl.Segmenter('en', { granularity: 'sentence' });

export function sentencesOf(text: Text, source: string): Sentence[] {
  const { raw, offsets } = rawOf(text, source);
  return [...segmenter.segment(raw)].flatMap(({ segment, index }) => {
    const trimmed = segment.trim();
    if (trimmed === '') return [];
    const from = index + segment.indexOf(trimmed);
    return [{ text: trimmed, ...sourceSpan(offsets, from, from + trimmed.length) }];
  });
}

/** The span in the source of a stretch of a sentence. */
export function within(sentence: Sentence, from: number, length: number): Span {
  const gap = sentence.end - sentence.start - sentence.text.length;
  // A sentence that runs over two strings is longer in the source than in its text: then it is marked as a whole.
  return gap === 0 ? { start: sentence.start + from, end: sentence.start + from + length } : sentence;
}

/** The inside of the strings with one space between them, and the source offset of each character. */
function rawOf(text: Text, source: string): { raw: string; offsets: number[] } {
  let raw = '';
  const offsets: number[] = [];
  for (const string of text.strings) {
    if (raw !== '') {
      raw += ' ';
      offsets.push(string.start);
    }
    for (let offset = string.start + 1; offset < string.end - 1; offset++) {
      raw += source[offset];
      offsets.push(offset);
    }
  }
  return { raw, offsets };
}

function sourceSpan(offsets: readonly number[], from: number, to: number): Span {
  return { start: offsets[from] ?? 0, end: (offsets[to - 1] ?? 0) + 1 };
}

/**
 * Words as writing rules for procedures count them: what stands in parentheses or quotation marks is one word, so is a number with
 * its unit, a group joined by hyphens, and the label that a slot stands for.
 */
export function countWords(sentence: string): number {
  const joined = sentence
    .replace(/\([^()]*\)|\\"[^"]*\\"|\{[^{}]*\}/gu, ' x ')
    .replace(/(\d[\d.,]*)\s*([%°\p{L}][\p{L}/.·°-]*)/gu, (figure, _number, unit) => (isUnit(unit) ? 'x' : figure));
  return joined.split(/\s+/u).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;
}

function isUnit(word: string): boolean {
  return findUnit(word) !== undefined || /^(?:second|minute|hour|day|degree)s?$/iu.test(word);
}

/** A sentence without the condition that leads it: `If the lamp is on, close …` becomes `close …`, with how much was taken off. */
export function withoutCondition(sentence: string): { readonly text: string; readonly from: number } {
  const condition = /^(?:if|when|before|after|while|until|unless|once)\b[^,]*,\s*/iu.exec(sentence)?.[0] ?? '';
  return { text: sentence.slice(condition.length), from: condition.length };
}

/** Finds any of the words or phrases, whole and in either case. `undefined` where the list is empty. */
export function anyOf(words: readonly string[], before = '', flags = 'giu'): RegExp | undefined {
  if (words.length === 0) return undefined;
  const longestFirst = [...words].sort((a, b) => b.length - a.length).map(escaped);
  return new RegExp(`${before}(?<![\\p{L}\\p{N}-])(?:${longestFirst.join('|')})(?![\\p{L}\\p{N}-])`, flags);
}

function escaped(word: string): string {
  return word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/\s+/g, '\\s+');
}
