/** How a slip of somebody new to the language is written down: what was written, why it is none, what to write instead. */
import { lazily } from '../../shared/lazily.ts';
import { capital } from '../../shared/text.ts';
import { isClosedText } from '../scan.ts';
import { endOf, lex, QuotedText } from '../tokens.ts';

export interface Slip {
  /** Finds it in a masked text. */
  readonly written: RegExp;
  readonly why: string;
  /**
   * What to write: `$1` stands for what the first group found, with its texts. Of several the first that can be read counts. Where there
   * is none, only the reason is told.
   */
  readonly instead: readonly (string | ((groups: readonly string[], text: string) => string | undefined))[];
}

/** Stands in a masked text for a character of a quoted text, so that nothing is found in there. */
const hidden = '\ue000';

/** Words in capitals that stand for a piece of a text in the expressions below. */
const pieces: Readonly<Record<string, string>> = {
  TEXT: `"${hidden}*"`,
  OPENTEXT: `"${hidden}+(?!["${hidden}])`,
  NAME: '[\\p{L}][\\p{L}\\p{N}]*(?:-[\\p{L}\\p{N}]+)*',
  NUM: '-?\\d+(?:\\.\\d+)?',
  UNIT: '[\\p{L}%°µ][\\p{L}%°µ/·]*',
  // Words of a sentence that should stand in quotation marks.
  WORDS: `[\\p{L}\\p{N}][^\\n"{}/#:;=<>${hidden}]*?`,
  REST: `[^\\n"{}${hidden}]*?`,
  BY: '(?:by[ \\t]+[\\p{L}\\p{N}-]+[ \\t]+)?',
  END: `(?=[ \\t${hidden}]*(?:\\r?\\n|$|\\}))`,
  START: '(?<=(?:^|\\n|\\{)[ \\t]*)',
};

/** In `written` a blank is one or more blanks on one line, and words in capitals stand for the pieces above. */
export function slip(written: string, why: string, ...instead: Slip['instead']): Slip {
  const source = written
    .replace(/ ([*?]?)/g, (_, any) => `[ \\t]${any || '+'}`)
    .replace(/[A-Z]{2,}/g, (word) => pieces[word] ?? word);
  // Few texts have slips: nobody waits at the start for so many expressions.
  const expression = lazily(() => new RegExp(source, 'dgiu'));
  return {
    get written() {
      return expression();
    },
    why,
    instead,
  };
}

/** A text with the insides of its quoted texts and its comments hidden, of the same length. */
export function masked(text: string): string {
  const { tokens, comments } = lex(text);
  const spans = tokens
    .filter(({ tokenType }) => tokenType === QuotedText)
    .map((token) => ({ start: token.startOffset + 1, end: endOf(token) - (isClosedText(token.image) ? 1 : 0) }))
    .concat(comments.map((token) => ({ start: token.startOffset, end: endOf(token) })))
    .sort((a, b) => a.start - b.start);
  let result = '';
  let at = 0;
  for (const { start, end } of spans) {
    result += text.slice(at, start) + hidden.repeat(Math.max(0, end - start));
    at = Math.max(at, end);
  }
  return result + text.slice(at);
}

/** What to write in the place of a match, in the words of the text. */
export function insteadOf({ instead }: Slip, match: RegExpExecArray, written: string, text: string): string[] {
  const groups = (match.indices ?? []).map((span) => (span ? written.slice(span[0], span[1]) : ''));
  return instead
    .map((one) =>
      typeof one === 'function' ? one(groups, text) : one.replace(/\$(\d)/g, (_, group) => groups[Number(group)] ?? ''),
    )
    .filter((one) => one !== undefined);
}

/** A sentence for the crew between quotation marks. */
export function quoted(words: string): string {
  const sentence = words
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/["'“”]/g, '')
    .replace(/\{/g, '{{');
  const whole = capital(sentence);
  return `"${/[.!?]$/.test(whole) ? whole : `${whole}.`}"`;
}
