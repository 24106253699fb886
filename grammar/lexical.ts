/** Problems of single signs, texts and comments, found before any order of words is looked at. */
import type { Span } from '../shared/text.ts';
import * as messages from './messages.ts';
import { isClosedText, isCurlyText } from './scan.ts';
import type { SyntaxProblem } from './syntax.ts';
import { DateText, endOf, type Lexed, QuotedText, type Token } from './tokens.ts';

/** At most `most` of each sort. */
export function lexicalProblems(text: string, { tokens, comments, strange }: Lexed, most: number): SyntaxProblem[] {
  const signs = strange.slice(0, most).map((found) => messages.strangeSign(signAt(text, found)));
  return [
    ...signs,
    ...firstOf(tokens, textProblem, most),
    ...firstOf(tokens, dateProblem, most),
    ...firstOf(comments, commentProblem, most),
  ];
}

function firstOf(
  tokens: readonly Token[],
  problemOf: (token: Token) => SyntaxProblem | undefined,
  most: number,
): SyntaxProblem[] {
  const problems: SyntaxProblem[] = [];
  for (const token of tokens) {
    const problem = problemOf(token);
    if (problem !== undefined) problems.push(problem);
    if (problems.length === most) break;
  }
  return problems;
}

/** The equals sign of `>=` is a sign of the language, so the lexer finds only the other half strange. */
function signAt(text: string, { offset, length }: Lexed['strange'][number]): Span & { text: string } {
  const end = offset + length;
  const whole = /^[<>]=$/.test(text.slice(offset, end + 1)) ? end + 1 : end;
  return { start: offset, end: whole, text: text.slice(offset, whole) };
}

function textProblem(token: Token): SyntaxProblem | undefined {
  if (token.tokenType !== QuotedText) return undefined;
  if (!isClosedText(token.image)) return messages.unclosedText(spanOf(token));
  return isCurlyText(token.image) ? messages.curlyText(spanOf(token)) : undefined;
}

function dateProblem(token: Token): SyntaxProblem | undefined {
  if (token.tokenType !== DateText) return undefined;
  const time = Date.parse(`${token.image}T00:00:00Z`);
  const isDay = !Number.isNaN(time) && new Date(time).toISOString().startsWith(token.image);
  return isDay ? undefined : messages.noSuchDay(token.image, spanOf(token));
}

function commentProblem(comment: Token): SyntaxProblem | undefined {
  const { image } = comment;
  const isOpen = image.startsWith('/*') && (image.length < 4 || !image.endsWith('*/'));
  return isOpen ? messages.unclosedComment(spanOf(comment)) : undefined;
}

function spanOf(token: Token): Span {
  return { start: token.startOffset, end: endOf(token) };
}
