/** The languages that a card can speak. */
import { english } from './english.ts';
import { french } from './french.ts';
import { german } from './german.ts';
import type { FixedWords } from './words.ts';

const languages: readonly FixedWords[] = [english, german, french];

/** The words for a language tag: those of its first part, English where there are none. */
export function fixedWords(tag: string | undefined): FixedWords {
  const primary = tag?.toLowerCase().split('-')[0];
  return languages.find(({ tag: own }) => own === primary) ?? english;
}
