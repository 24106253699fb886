/** The smallest change of all: one text in quotes, one comment or one number reads otherwise. Every other token stays what it is. */
import { differenceBetween } from '../shared/text.ts';
import { all } from './navigate.ts';
import { endOfBlockComment, endOfLineComment, endOfText, isClosedText } from './scan.ts';
import type { Comment, NumberNode, Parsed, Text, TextWords } from './syntax.ts';

type Token = Text | NumberNode | (Comment & { readonly type?: undefined });

export interface ChangedToken {
  /** As it stands in the tree. */
  readonly token: Token;
  /** Where it stood and where it differs, as offsets of the text before. */
  readonly start: number;
  readonly end: number;
  readonly changedUpTo: number;
  /** How much longer it is now. */
  readonly by: number;
  /** What is written there now, with its quotes or signs. */
  readonly written: string;
}

/** Undefined where the texts differ in more than that, or the first had something wrong in it. */
export function changedToken(
  { text: before, file, comments, problems }: Parsed,
  now: string,
): ChangedToken | undefined {
  if (problems.length > 0 || before === now) return undefined;
  const { start: from, removed, added } = differenceBetween(before, now);
  // A line more is told in what findings say; the other signs begin a slot or an escape, or are in no text.
  if (/[\r\n{}\\\0\ufffd]/.test(before.slice(from, from + removed) + now.slice(from, from + added))) return undefined;
  const isInside = ({ start, end }: Token) => start < from && from + removed <= end;
  const isIn = ({ start, end }: Token) => start <= from && from + removed <= end;
  const token = comments.find(isInside) ?? all(file, 'text').find(isInside) ?? all(file, 'number').find(isIn);
  if (!token) return undefined;
  const { start, end } = token;
  const by = added - removed;
  const written = now.slice(start, end + by);
  return isStill(token, now, written) ? { token, start, end, changedUpTo: from + removed, by, written } : undefined;
}

/** Whether it is one token of the same sort still, and words alone where it was words alone. */
function isStill(token: Token, now: string, written: string): boolean {
  const { start } = token;
  const end = start + written.length;
  switch (token.type) {
    case 'text': {
      const { strings, segments } = token;
      const isPlain = strings.length === 1 && segments.length === 1 && segments[0]?.type === 'words';
      const isOne = written.length > 2 && isClosedText(written) && endOfText(now, start) === end;
      return isPlain && isOne && !/[{\\]/.test(written);
    }
    case 'number':
      // With a line behind it, it may be a date.
      return (
        /^-?\d+(?:\.\d+)?$/.test(written) && !/[\w.-]/.test(now.charAt(start - 1)) && !/[\d.-]/.test(now.charAt(end))
      );
    case undefined: {
      const isLine = token.text.startsWith('//');
      const isClosed = isLine || (written.length >= 4 && written.endsWith('*/'));
      const endOf = isLine ? endOfLineComment : endOfBlockComment;
      return written.startsWith(token.text.slice(0, 2)) && isClosed && endOf(now, start) === end;
    }
  }
}

type Writing<Node> = { -readonly [Key in keyof Node]: Node[Key] };

/** Writes into the tree what the token is now. Its place and all others stay as they are. */
export function writeToken({ token, written }: Pick<ChangedToken, 'token' | 'written'>): void {
  if (token.type !== 'text') {
    (token as Writing<NumberNode | Comment>).text = written;
    return;
  }
  const words = written.slice(1, -1);
  (token as Writing<Text>).value = words;
  for (const segment of token.segments) (segment as Writing<TextWords>).value = words;
}
