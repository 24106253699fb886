/** A sentence in words, with where each stands. */
import { matchesOf } from '../../shared/text.ts';

export interface Token {
  /** `aside` is what stands in parentheses. */
  readonly type: 'word' | 'slot' | 'aside' | 'sign';
  /** In small letters. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** For a slot: the name in it, and the limit after the dot. */
  readonly name?: string;
  readonly limit?: string;
}

const piece = /\{\s*([^\s{}.]+)(?:\.([^\s{}.]+))?\s*\}|\([^()]*\)|[\p{L}\p{N}]+(?:['’]\p{L}+)?|[^\s\p{L}\p{N}]/gu;

export function tokensOf(sentence: string): Token[] {
  return matchesOf(piece, sentence).map(({ 0: whole, 1: name, 2: limit, index }) => ({
    type: typeOf(whole, name),
    text: whole.toLowerCase(),
    start: index,
    end: index + whole.length,
    ...(name && { name }),
    ...(limit && { limit }),
  }));
}

function typeOf(text: string, slot: string | undefined): Token['type'] {
  if (slot !== undefined) return 'slot';
  if (text.startsWith('(') && text.length > 1) return 'aside';
  return /^[\p{L}\p{N}]/u.test(text) ? 'word' : 'sign';
}

/** Words that say nothing of which thing is meant. */
const articles = new Set(
  'the a an this that these those both all each every its your their der die das den dem des ein eine einen einem'.split(
    ' ',
  ),
);

export const isArticle = (word: string): boolean => articles.has(word);

/** The words of a label or name, in small letters, without articles. */
export function plainWords(text: string): string[] {
  return (text.toLowerCase().match(/[\p{L}\p{N}]+(?:['’]\p{L}+)?/gu) ?? []).filter((word) => !isArticle(word));
}

/** A name as a reader says it. */
export const spoken = (name: string): string => name.toLowerCase().replaceAll('-', ' ');
