/** The smallest change of all: other words in one quoted text, or in one comment. Every token but that one stays what it is. */
import { all } from './navigate.ts';
import { endOfBlockComment, endOfLineComment, endOfText, isClosedText } from './scan.ts';
import type { Comment, Parsed, Text, TextWords } from './syntax.ts';

/** A stretch of a text that another takes the place of. */
export interface Change {
  readonly start: number;
  readonly removed: number;
  readonly added: number;
}

export interface Rewording {
  readonly change: Change;
  /** Where the words change, as it was before. */
  readonly at: Text | Comment;
  /** What is written there now, with its quotes or signs. */
  readonly written: string;
}

/** Undefined where the texts differ in more than that, or the first had something wrong in it. */
export function rewording({ text: before, file, comments, problems }: Parsed, now: string): Rewording | undefined {
  if (problems.length > 0 || before === now) return undefined;
  const change = changeBetween(before, now);
  const { start, removed, added } = change;
  // A line more is told in what findings say; these signs begin a slot or an escape, or are in no text.
  if (/[\r\n{}\\\0\ufffd]/.test(before.slice(start, start + removed) + now.slice(start, start + added)))
    return undefined;
  const around = (one: Text | Comment) => one.start < start && start + removed <= one.end;
  const at = comments.find(around) ?? all(file, 'text').find(around);
  if (!at) return undefined;
  const written = now.slice(at.start, at.end + added - removed);
  const isSame = 'type' in at ? isPlain(at) && isOneText(now, at.start, written) : isOneComment(now, at, written);
  return isSame ? { change, at, written } : undefined;
}

/** The shortest stretch in which two texts differ. */
function changeBetween(before: string, now: string): Change {
  const shorter = Math.min(before.length, now.length);
  let start = 0;
  while (start < shorter && before.charCodeAt(start) === now.charCodeAt(start)) start++;
  let same = 0;
  while (
    same < shorter - start &&
    before.charCodeAt(before.length - 1 - same) === now.charCodeAt(now.length - 1 - same)
  )
    same++;
  return { start, removed: before.length - same - start, added: now.length - same - start };
}

/** One string of words alone. */
function isPlain({ strings, segments }: Text): boolean {
  return strings.length === 1 && segments.length === 1 && segments[0]?.type === 'words';
}

function isOneText(now: string, start: number, written: string): boolean {
  const isPlainStill = written.length > 2 && isClosedText(written) && !/[{\\]/.test(written);
  return isPlainStill && endOfText(now, start) === start + written.length;
}

function isOneComment(now: string, { text, start }: Comment, written: string): boolean {
  const endOf = text.startsWith('//') ? endOfLineComment : endOfBlockComment;
  const isClosed = text.startsWith('//') || (written.length >= 4 && written.endsWith('*/'));
  return written.startsWith(text.slice(0, 2)) && isClosed && endOf(now, start) === start + written.length;
}

type Reworded<Node> = { -readonly [Key in keyof Node]: Node[Key] };

/** Writes the other words into the tree, and into what was made of it. */
export function reword({ at, written }: Rewording, words: readonly { readonly text: string }[]): void {
  if (!('type' in at)) {
    (at as Reworded<Comment>).text = written;
    return;
  }
  const text = written.slice(1, -1);
  (at as Reworded<Text>).value = text;
  for (const one of [...words]) (one as Reworded<typeof one>).text = text;
  for (const segment of at.segments) if (segment.type === 'words') (segment as Reworded<TextWords>).value = text;
}
