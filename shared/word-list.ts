/**
 * A shop's own words, as a file of plain text: each line is a word or phrase that is used, or `WORD -> INSTEAD`, one that is not used
 * and what is written instead. A line that begins with `#` is for people.
 */
import type { Settings } from './settings.ts';
import type { ReadSettings, SettingsProblem } from './settings-reading.ts';

export interface WordList {
  readonly approved: readonly string[];
  readonly instead: Readonly<Record<string, string>>;
  /** What cannot be used, with its line. */
  readonly problems: readonly string[];
}

/** The text of a file beside the settings, undefined where there is none that can be read. */
export type TextAt = (path: string) => string | undefined;

/** Each word costs time at each sentence. */
export const mostWords = 5000;
const longestWord = 100;

export function readWordList(text: string): WordList {
  const approved: string[] = [];
  const instead: Record<string, string> = Object.create(null) as Record<string, string>;
  const problems: string[] = [];
  const known = new Map<string, number>();
  const lines = text.replace(/^\uFEFF/u, '').split(/\r\n|\n|\r/u);
  for (const [index, line] of lines.entries()) {
    const at = index + 1;
    const [word = '', ...others] = line.trim().split(/\s*(?:->|→)\s*/u);
    if (line.trim() === '' || word.startsWith('#')) continue;
    const before = known.get(word.toLowerCase());
    if (known.size === mostWords) return { approved, instead, problems: [...problems, tooMany(at)] };
    const problem = problemOf(word, others, before);
    if (problem !== undefined) {
      problems.push(`Line ${at}: ${problem}`);
      continue;
    }
    known.set(word.toLowerCase(), at);
    if (others[0] === undefined) approved.push(word);
    else instead[word] = others[0];
  }
  return { approved, instead, problems };
}

const tooMany = (line: number) => `Line ${line}: a list has at most ${mostWords} words. What follows is left out.`;

function problemOf(word: string, others: readonly string[], before: number | undefined): string | undefined {
  if (word === '' || others.length > 1 || others.includes(''))
    return 'write a word, or “WORD -> INSTEAD” for one that is not used.';
  if ([word, ...others].some((one) => one.length > longestWord)) return `a word has at most ${longestWord} characters.`;
  return before === undefined ? undefined : `“${word}” is in line ${before} too. Take one of them out.`;
}

/** The settings with the words of the list that they name beside those of their own. */
export function withWordList(given: Partial<Settings>, usual: Settings, textAt: TextAt): Partial<Settings> {
  const { wordList } = given;
  const text = wordList ? textAt(wordList) : undefined;
  if (text === undefined) return given;
  const { approved, instead } = readWordList(text);
  const { approvedWords, notApprovedWords } = { ...usual, ...given };
  return {
    ...given,
    approvedWords: [...approvedWords, ...approved],
    notApprovedWords: { ...notApprovedWords, ...instead },
  };
}

/** What cannot be used of the list that settings name, or that there is none. */
export function wordListProblems({ given: { wordList } }: ReadSettings, textAt: TextAt): readonly SettingsProblem[] {
  if (!wordList) return [];
  const key = 'wordList';
  const text = textAt(wordList);
  if (text === undefined)
    return [{ key, message: `There is no file “${wordList}” that can be read. Its words are not used.` }];
  return readWordList(text).problems.map((message) => ({ key, message: `${wordList}: ${message}` }));
}
