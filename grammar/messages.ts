/** What is said about a slip of the pen: what is missing or in the way, and what to write, in a writer's words. */
import { capital, type Span } from '../shared/text.ts';
import type { SyntaxProblem } from './syntax.ts';

type Fix = NonNullable<SyntaxProblem['fix']>;

/** What the parser waited for: words for the message and, where there is only one spelling, what to insert. */
export interface Wanted {
  readonly words: string;
  readonly insert?: string;
}

/** A stretch of the text with what stands there. */
export interface Piece extends Span {
  readonly text: string;
}

const longestQuote = 40;

/** A piece of the text between quotation marks, shortened where it is long. */
export function quote(text: string): string {
  const line = text.replace(/\s+/g, ' ');
  return `“${line.length > longestQuote ? `${line.slice(0, longestQuote - 1)}…` : line}”`;
}

/** `after` is the last piece read; `advice` ends the message. */
export function missing(wanted: Wanted, after: Piece, advice: string): SyntaxProblem {
  const where = after.text === '' ? '' : ` after ${quote(after.text)}`;
  return {
    code: 'syntax.missing',
    span: bare(after),
    message: `${capital(wanted.words)} is missing${where}.${advice}`,
    fix: wanted.insert === undefined ? undefined : insertion(after.end, wanted.insert),
  };
}

/** A word that must stand before what follows, such as the `step` of an action. */
export function missingBefore(word: string, before: Piece, reason: string): SyntaxProblem {
  return {
    code: 'syntax.missing',
    span: bare(before),
    message: `${reason} Write “${word}” before ${quote(before.text)}.`,
    fix: {
      title: `Write “${word}” before it`,
      edits: [{ start: before.start, end: before.start, newText: `${word} ` }],
    },
  };
}

function insertion(at: number, text: string): Fix {
  const newText = /^[,:]/.test(text) ? text : ` ${text}`;
  return { title: `Insert “${text}”`, edits: [{ start: at, end: at, newText }] };
}

/** `at` is the last piece of what is not closed, `opened` the word that began it. */
export function unclosed(sign: string, at: Span, what: string, opened?: Span, newText = ` ${sign}`): SyntaxProblem {
  return {
    code: 'syntax.unclosed',
    span: bare(at),
    message: `${what} is not closed. Write “${sign}” where it ends.`,
    opened: opened && { span: opened, text: what },
    fix: { title: `Insert “${sign}”`, edits: [{ start: at.end, end: at.end, newText }] },
  };
}

export function unopened(brace: Span): SyntaxProblem {
  return {
    code: 'syntax.unexpected',
    span: brace,
    message: 'This “}” closes nothing: there is one more of them than of “{”. Delete it.',
    fix: deletion(brace, '}'),
  };
}

export function unexpected(found: Piece, advice: string): SyntaxProblem {
  return { code: 'syntax.unexpected', span: bare(found), message: `${quote(found.text)} cannot stand here.${advice}` };
}

/** Something that is right in itself but in the wrong place. */
export function misplaced(found: Piece, reason: string): SyntaxProblem {
  return { code: 'syntax.unexpected', span: bare(found), message: `${quote(found.text)} cannot stand here: ${reason}` };
}

export function twice(found: Piece): SyntaxProblem {
  return {
    code: 'syntax.unexpected',
    span: bare(found),
    message: `${quote(found.text)} is written twice. Delete one of them.`,
    fix: deletion(found, found.text),
  };
}

export function misspelt(found: Piece, word: string): SyntaxProblem {
  return {
    code: 'syntax.unexpected',
    span: bare(found),
    message: `${quote(found.text)} is no word of the language here. Did you mean “${word}”?`,
    fix: { title: `Change to “${word}”`, edits: [{ start: found.start, end: found.end, newText: word }] },
  };
}

/** Where it is declared another name can be given; where it is used, only the declaration can say which. */
export function reservedName(found: Piece, isDeclared: boolean): SyntaxProblem {
  const other = `${found.text}-1`;
  return {
    code: 'syntax.reserved',
    span: bare(found),
    message: `${quote(found.text)} is a word of the language and cannot be a name. Choose another, such as “${other}”.`,
    fix: isDeclared
      ? { title: `Call it “${other}”`, edits: [{ start: found.start, end: found.end, newText: other }] }
      : undefined,
  };
}

const longestLine = 100;

/** Something that is written in another way here; `line` is the whole line as it should stand. */
export function slip(code: string, span: Span, why: string, line: string, edits: Fix['edits']): SyntaxProblem {
  const shown = line.trim();
  const short = shown.length > longestLine ? `${shown.slice(0, longestLine - 1)}…` : shown;
  return {
    code,
    span: bare(span),
    message: `${why} Write “${short}”.`,
    fix: { title: `Write “${short.replaceAll(/\s*\n\s*/g, ' ⏎ ')}”`, edits },
  };
}

export function tooDeep(found: Span, limit: number): SyntaxProblem {
  return {
    code: 'syntax.nesting',
    span: bare(found),
    message: `This is nested more than ${limit} deep. What is in it is passed over: move it into a procedure of its own.`,
  };
}

export function unclosedText(found: Span): SyntaxProblem {
  return {
    code: 'syntax.text',
    span: bare(found),
    message:
      'This text is not closed on its line. Write “"” where it ends; a longer text is written as several, one after the other.',
    fix: { title: 'Close the text', edits: [{ start: found.end, end: found.end, newText: '"' }] },
  };
}

export function unclosedSlot(brace: Span): SyntaxProblem {
  return {
    code: 'syntax.text',
    span: brace,
    message:
      'In a text, “{” begins the name of an item, a gauge or a limit, as in “{pump}” or “{pressure.normal}”. For a plain brace write “{{”.',
    fix: { title: 'Write “{{”', edits: [{ start: brace.start, end: brace.start, newText: '{' }] },
  };
}

export function emptySlot(braces: Span): SyntaxProblem {
  return {
    code: 'syntax.text',
    span: bare(braces),
    message:
      '“{}” names nothing here: only the words for a state of a kind leave the name out. Write what is meant between the braces, as in “{pump}”. For plain braces write “{{}”.',
  };
}

export function noSuchDay(text: string, found: Span): SyntaxProblem {
  return {
    code: 'syntax.unexpected',
    span: bare(found),
    message: `${quote(text)} is no day. A date is written with the year first, then month and day, such as “2026-10-02”.`,
  };
}

export function unclosedComment(found: Span): SyntaxProblem {
  return {
    code: 'syntax.comment',
    span: bare(found),
    message: 'This comment is never closed; it is read to the end of its line. Write “*/” where it ends.',
    fix: { title: 'Close the comment here', edits: [{ start: found.end, end: found.end, newText: ' */' }] },
  };
}

/** What is meant by signs that other programs and other languages use. */
const meantBySign = new Map([
  ['−', '-'],
  ['–', '-'],
  ['→', '->'],
  ['↔', '<->'],
  ['，', ','],
  ['：', ':'],
  ['≥', 'at least'],
  ['>=', 'at least'],
  ['≤', 'at most'],
  ['<=', 'at most'],
  ['>', 'above'],
  ['<', 'below'],
  ['&', 'and'],
  ['&&', 'and'],
  ['|', 'or'],
  ['||', 'or'],
  ['!', 'not'],
]);

export function strangeSign(found: Piece): SyntaxProblem {
  const span = bare(found);
  const meant = meantBySign.get(found.text);
  const shown = /^[\p{L}\p{N}\p{P}\p{S}]+$/u.test(found.text) ? `${quote(found.text)} is no sign` : 'This is no sign';
  if (meant === undefined) {
    const message = `${shown} of the language. Delete it, or write it in a text.`;
    return { code: 'syntax.character', span, message, fix: deletion(span, found.text) };
  }
  const fix = { title: `Write “${meant}”`, edits: [{ ...span, newText: meant }] };
  return { code: 'syntax.character', span, message: `${shown} of the language. Write “${meant}”.`, fix };
}

export function curlyText(found: Span): SyntaxProblem {
  const edits = [
    { start: found.start, end: found.start + 1, newText: '"' },
    { start: found.end - 1, end: found.end, newText: '"' },
  ];
  return {
    code: 'syntax.character',
    span: found,
    message: 'A text stands between straight quotation marks: write " at both its ends.',
    fix: { title: 'Write straight quotation marks', edits },
  };
}

export function notText(length: number): SyntaxProblem {
  return {
    code: 'syntax.character',
    span: { start: 0, end: Math.min(length, 1) },
    message: 'This is no text file: it holds characters that no text has. Open the card itself, saved as UTF-8.',
  };
}

function deletion(span: Span, text: string): Fix {
  return { title: `Delete “${text}”`, edits: [{ ...bare(span), newText: '' }] };
}

function bare(span: Span): Span {
  return { start: span.start, end: span.end };
}
