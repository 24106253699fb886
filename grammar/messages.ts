/** What is said about a slip of the pen: what is missing or in the way, and what to write, in a writer's words. */
import type { Span } from '../shared/text.ts';
import { patternOf } from './patterns.ts';
import type { SyntaxProblem } from './syntax.ts';

type Fix = NonNullable<SyntaxProblem['fix']>;

/** What the parser waited for: words for the message and, where there is only one spelling, what to insert. */
export interface Wanted {
  readonly words: string;
  readonly insert?: string;
}

export interface Opened {
  readonly span: Span;
  readonly text: string;
}

const longestQuote = 40;

/** A piece of the text between quotation marks, shortened where it is long. */
export function quote(text: string): string {
  const line = text.replace(/\s+/g, ' ');
  return `“${line.length > longestQuote ? `${line.slice(0, longestQuote - 1)}…` : line}”`;
}

/** `after` is the last piece read; `head` the word that began the sentence. */
export function missing(wanted: Wanted, after: Span & { readonly text: string }, head?: string): SyntaxProblem {
  const where = after.text === '' ? '' : ` after ${quote(after.text)}`;
  return {
    code: 'syntax.missing',
    span: after,
    message: `${capital(wanted.words)} is missing${where}.${advice(head)}`,
    fix: wanted.insert === undefined ? undefined : insertion(after.end, wanted.insert),
  };
}

/** A word that must stand before what follows, such as the `step` of an action. */
export function missingBefore(word: string, before: Span & { readonly text: string }, reason: string): SyntaxProblem {
  return {
    code: 'syntax.missing',
    span: before,
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

export function unclosed(sign: string, at: Span, opened: Opened | undefined, newText = ` ${sign}`): SyntaxProblem {
  const what = opened === undefined ? 'What stands before' : opened.text;
  return {
    code: 'syntax.unclosed',
    span: at,
    message: `${what} is not closed. Write “${sign}” where it ends.`,
    opened,
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

export function unexpected(found: Span & { readonly text: string }, head?: string): SyntaxProblem {
  return {
    code: 'syntax.unexpected',
    span: found,
    message: `${quote(found.text)} cannot stand here.${advice(head)}`,
  };
}

/** Something that is right in itself but in the wrong place. */
export function misplaced(found: Span & { readonly text: string }, reason: string): SyntaxProblem {
  return { code: 'syntax.unexpected', span: found, message: `${quote(found.text)} cannot stand here: ${reason}` };
}

export function twice(found: Span & { readonly text: string }): SyntaxProblem {
  return {
    code: 'syntax.unexpected',
    span: found,
    message: `${quote(found.text)} is written twice. Delete one of them.`,
    fix: deletion(found, found.text),
  };
}

export function misspelt(found: Span & { readonly text: string }, word: string): SyntaxProblem {
  return {
    code: 'syntax.unexpected',
    span: found,
    message: `${quote(found.text)} is no word of the language here. Did you mean “${word}”?`,
    fix: { title: `Change to “${word}”`, edits: [{ start: found.start, end: found.end, newText: word }] },
  };
}

export function reservedName(found: Span & { readonly text: string }): SyntaxProblem {
  return {
    code: 'syntax.reserved',
    span: found,
    message: `${quote(found.text)} is a word of the language and cannot be a name. Choose another, such as “${found.text}-1”.`,
  };
}

export function tooDeep(found: Span, limit: number): SyntaxProblem {
  return {
    code: 'syntax.nesting',
    span: found,
    message: `This is nested more than ${limit} deep. What is in it is passed over: move it into a procedure of its own.`,
  };
}

export function unclosedText(found: Span): SyntaxProblem {
  return {
    code: 'syntax.text',
    span: found,
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

export function unclosedComment(found: Span): SyntaxProblem {
  return {
    code: 'syntax.comment',
    span: found,
    message: 'This comment is never closed; it is read to the end of its line. Write “*/” where it ends.',
    fix: { title: 'Close the comment here', edits: [{ start: found.end, end: found.end, newText: ' */' }] },
  };
}

const lookalikes = new Map([
  ['“', '"'],
  ['”', '"'],
  ['„', '"'],
  ['«', '"'],
  ['»', '"'],
  ['−', '-'],
  ['–', '-'],
  ['→', '->'],
  ['↔', '<->'],
  [';', ''],
  ['，', ','],
  ['：', ':'],
]);

export function strangeCharacter(found: Span & { readonly text: string }): SyntaxProblem {
  const plain = lookalikes.get(found.text);
  const meant =
    plain === undefined
      ? ' Delete it, or put it in a text.'
      : plain === ''
        ? ' Delete it: nothing ends a line.'
        : ` Write ${plain} instead.`;
  const printable = /^[\p{L}\p{N}\p{P}\p{S}\s]+$/u.test(found.text) ? ` ${quote(found.text)}` : '';
  return {
    code: 'syntax.character',
    span: found,
    message: `The ${found.text.length > 1 ? 'signs' : 'sign'}${printable} ${found.text.length > 1 ? 'mean' : 'means'} nothing here.${meant}`,
    fix:
      plain === undefined
        ? undefined
        : { title: plain === '' ? 'Delete it' : `Write ${plain}`, edits: [{ ...bare(found), newText: plain }] },
  };
}

export function notText(length: number): SyntaxProblem {
  return {
    code: 'syntax.character',
    span: { start: 0, end: Math.min(length, 1) },
    message: 'This is no text file: it holds characters that no text has. Open the card itself, saved as UTF-8.',
  };
}

function advice(head: string | undefined): string {
  const pattern = head === undefined ? undefined : patternOf(head);
  return pattern === undefined ? '' : ` Written in full: ${pattern}`;
}

function deletion(span: Span, text: string): Fix {
  return { title: `Delete “${text}”`, edits: [{ ...bare(span), newText: '' }] };
}

function bare(span: Span): Span {
  return { start: span.start, end: span.end };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
