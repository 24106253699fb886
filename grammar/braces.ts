/**
 * Where a file has not as many closing braces as opening ones, its lines still show by their indentation where one is
 * missing or too many. What is found is only a proposal: `parse.ts` keeps the reading that leaves fewer problems.
 */
import type { Span } from '../shared/text.ts';
import * as messages from './messages.ts';
import { lineIndent } from './scan.ts';
import type { SyntaxProblem } from './syntax.ts';
import { CloseBrace, endOf, k, lex, OpenBrace, sentenceStarts, surplusBraces, type Token } from './tokens.ts';

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
  const surplus = surplusBraces(tokens);
  if (surplus === 0) return undefined;
  return surplus > 0 ? dropSurplus(text, tokens, surplus) : insertMissing(text, tokens, -surplus);
}

function insertMissing(text: string, tokens: readonly Token[], missing: number): Mended {
  const mended: Token[] = [];
  const problems: SyntaxProblem[] = [];
  walk(text, tokens, (token, line, stack) => {
    while (line.begun && problems.length < missing && isPast(stack.at(-1), line.indent, token)) {
      const last = mended.at(-1) as Token;
      const open = stack.pop() as Open;
      problems.push(reportMissing(text, open, last));
      mended.push({
        ...last,
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

/** Whether a line that begins with this token stands outside what was opened. */
function isPast(open: Open | undefined, indent: string, { tokenType }: Token): boolean {
  if (open === undefined) return false;
  const inwards = indent.length - open.indent.length;
  if (tokenType === CloseBrace) return inwards < 0;
  return tokenType === k.else ? inwards < 2 : inwards <= 0;
}

function reportMissing(text: string, open: Open, last: Token): SyntaxProblem {
  const sameLine = !/[\r\n]/.test(text.slice(open.brace.startOffset, endOf(last)));
  const newText = sameLine ? ' }' : `\n${open.indent}}`;
  return messages.unclosed('}', spanOf(last), `This “${open.head.image}”`, spanOf(open.head), newText);
}

function dropSurplus(text: string, tokens: readonly Token[], surplus: number): Mended {
  const kept: Token[] = [];
  const problems: SyntaxProblem[] = [];
  walk(text, tokens, (token, line, stack) => {
    if (problems.length < surplus && token.tokenType === CloseBrace && closesNothing(line.indent, stack.at(-1))) {
      problems.push(messages.unopened(spanOf(token)));
      return false;
    }
    kept.push({ ...token });
    return true;
  });
  return { tokens: kept, problems };
}

/** A brace on a line that stands further in than the line on which the innermost open brace was opened. */
function closesNothing(indent: string, open: Open | undefined): boolean {
  return open === undefined || open.indent.length < indent.length;
}

interface Line {
  readonly indent: string;
  /** Whether the token begins a sentence, or closes a brace, at the start of the line. */
  readonly begun: boolean;
}

/** Goes through the tokens with the stack of open braces. `visit` says whether the token counts. */
function walk(
  text: string,
  tokens: readonly Token[],
  visit: (token: Token, line: Line, stack: Open[]) => boolean,
): void {
  const stack: Open[] = [];
  let head: Token | undefined;
  let headIndent = '';
  let indent = '';
  for (const [index, token] of tokens.entries()) {
    const ownIndent = lineIndent(text, token.startOffset);
    indent = ownIndent ?? indent;
    const begun = ownIndent !== undefined && beginsSentence(token, tokens[index - 1]);
    if (!visit(token, { indent, begun }, stack)) continue;
    if (begun || head === undefined) {
      head = token;
      headIndent = indent;
    }
    if (token.tokenType === OpenBrace) stack.push({ brace: token, head, indent: headIndent });
    if (token.tokenType === CloseBrace) stack.pop();
  }
}

function beginsSentence(token: Token, previous: Token | undefined): boolean {
  const { tokenType } = token;
  if (tokenType === CloseBrace || tokenType === k.else || sentenceStarts.has(tokenType) || partStarts.has(tokenType))
    return true;
  return previous === undefined || previous.tokenType === OpenBrace || previous.tokenType === CloseBrace;
}

function tokenTypeIdxOf(type: Token['tokenType']): number {
  return type.tokenTypeIdx as number;
}

function spanOf(token: Token): Span {
  return { start: token.startOffset, end: endOf(token) };
}

/** Where the brace stands that a `}` at this offset closes; undefined where none is open there. */
export function openedBy(text: string, closing: number): number | undefined {
  const open: number[] = [];
  for (const { tokenType, startOffset } of lex(text.slice(0, closing)).tokens) {
    if (tokenType === OpenBrace) open.push(startOffset);
    else if (tokenType === CloseBrace) open.pop();
  }
  return open.at(-1);
}
