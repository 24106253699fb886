/**
 * Where a file has not as many closing braces as opening ones, its lines still show by their indentation where one is
 * missing or too many. What is found is only a proposal: `parse.ts` keeps the reading that leaves fewer problems.
 */
import type { Span } from '../shared/text.ts';
import * as messages from './messages.ts';
import { lineIndent } from './scan.ts';
import type { SyntaxProblem } from './syntax.ts';
import { CloseBrace, endOf, k, OpenBrace, sentenceStarts, type Token } from './tokens.ts';

export interface Mended {
  readonly tokens: Token[];
  readonly problems: readonly SyntaxProblem[];
}

/** An opening brace that waits for its closing one. */
interface Open {
  readonly brace: Token;
  /** The word that began the sentence with the brace in it. */
  readonly head: Token;
  readonly indent: string;
}

/** Words that begin a sentence of their own on a line, beside the reserved ones. */
const partStarts = new Set([k.stage, k.limit, k.watch, k.duty, k.reads, k.source, k.link]);

/** Copies of the tokens with the braces that their lines ask for; undefined where there are as many `{` as `}`. */
export function mendBraces(text: string, tokens: readonly Token[]): Mended | undefined {
  const missing = count(tokens, OpenBrace) - count(tokens, CloseBrace);
  if (missing === 0) return undefined;
  return missing > 0 ? insertMissing(text, tokens, missing) : dropSurplus(text, tokens, -missing);
}

function count(tokens: readonly Token[], type: Token['tokenType']): number {
  return tokens.reduce((sum, token) => (token.tokenType === type ? sum + 1 : sum), 0);
}

function insertMissing(text: string, tokens: readonly Token[], missing: number): Mended {
  const mended: Token[] = [];
  const problems: SyntaxProblem[] = [];
  walk(text, tokens, (token, indent, stack) => {
    const closes = token.tokenType === CloseBrace;
    while (indent !== undefined && problems.length < missing && isPast(stack.at(-1), indent, closes)) {
      const last = mended.at(-1) as Token;
      const open = stack.pop() as Open;
      problems.push(reportMissing(text, open, last));
      mended.push({
        ...open.brace,
        image: '',
        startOffset: endOf(last),
        tokenType: CloseBrace,
        tokenTypeIdx: tokenTypeIdxOf(CloseBrace),
      });
    }
    mended.push({ ...token });
    return true;
  });
  return { tokens: mended, problems };
}

/** Whether a line with this indentation stands outside what was opened. */
function isPast(open: Open | undefined, indent: string, closes: boolean): boolean {
  if (open === undefined) return false;
  return closes ? open.indent.length > indent.length : open.indent.length >= indent.length;
}

function reportMissing(text: string, open: Open, last: Token): SyntaxProblem {
  const sameLine = !/[\r\n]/.test(text.slice(open.brace.startOffset, endOf(last)));
  const newText = sameLine ? ' }' : `\n${open.indent}}`;
  return messages.unclosed(
    '}',
    spanOf(last),
    { span: spanOf(open.head), text: `What “${open.head.image}” begins` },
    newText,
  );
}

function dropSurplus(text: string, tokens: readonly Token[], surplus: number): Mended {
  const kept: Token[] = [];
  const problems: SyntaxProblem[] = [];
  walk(text, tokens, (token, indent, stack) => {
    if (
      problems.length < surplus &&
      token.tokenType === CloseBrace &&
      closesNothing(text, token, indent, stack.at(-1))
    ) {
      problems.push(messages.unopened(spanOf(token)));
      return false;
    }
    kept.push({ ...token });
    return true;
  });
  return { tokens: kept, problems };
}

function closesNothing(text: string, brace: Token, indent: string | undefined, open: Open | undefined): boolean {
  if (open === undefined) return true;
  if (indent !== undefined) return indent.length > open.indent.length;
  return /[\r\n]/.test(text.slice(open.brace.startOffset, brace.startOffset));
}

/**
 * Goes through the tokens with the stack of open braces. `visit` is told the indentation of a token that begins a
 * sentence or closes a brace at the start of a line, and says whether the token counts.
 */
function walk(
  text: string,
  tokens: readonly Token[],
  visit: (token: Token, indent: string | undefined, stack: Open[]) => boolean,
): void {
  const stack: Open[] = [];
  let head: Token | undefined;
  let headIndent = '';
  for (const [index, token] of tokens.entries()) {
    const indent = beginsSentence(token, tokens[index - 1]) ? lineIndent(text, token.startOffset) : undefined;
    if (!visit(token, indent, stack)) continue;
    if (indent !== undefined || head === undefined) {
      head = token;
      headIndent = indent ?? '';
    }
    if (token.tokenType === OpenBrace) stack.push({ brace: token, head, indent: headIndent });
    if (token.tokenType === CloseBrace) stack.pop();
  }
}

function beginsSentence(token: Token, previous: Token | undefined): boolean {
  const { tokenType } = token;
  if (tokenType === CloseBrace || sentenceStarts.has(tokenType) || partStarts.has(tokenType)) return true;
  return previous === undefined || previous.tokenType === OpenBrace || previous.tokenType === CloseBrace;
}

function tokenTypeIdxOf(type: Token['tokenType']): number {
  return type.tokenTypeIdx as number;
}

function spanOf(token: Token): Span {
  return { start: token.startOffset, end: endOf(token) };
}
