/** Text to syntax tree: the one door to the parser. */
import { LineTable, type Span } from '../shared/text.ts';
import { mendBraces } from './braces.ts';
import { lexicalProblems } from './lexical.ts';
import * as messages from './messages.ts';
import { parser } from './parser.ts';
import { explained, rewrittenTokens, type Slips, slipsIn } from './slips/find.ts';
import type { Comment, File, Parsed, SyntaxProblem } from './syntax.ts';
import { endOf, lex, type Token } from './tokens.ts';

/** A file with more problems than this is not a card with slips in it; the first ones say enough. */
const mostProblems = 100;

interface Reading {
  readonly file: File;
  readonly problems: readonly SyntaxProblem[];
}

/** Reads a text. Never throws: gives a tree and its problems, always both. */
export function parse(text: string): Parsed {
  if (!looksLikeText(text)) {
    const file: File = { type: 'file', start: 0, end: text.length, declarations: [] };
    return { text, file, comments: [], problems: [messages.notText(text.length)] };
  }
  const plain = read(text);
  const slips = slipsIn(plain, (changed) => read(changed).problems);
  if (slips.rewritings.length > 0) {
    const { problems, ...reading } = readWith(text, slips);
    if (slips.problems.length + problems.length <= plain.problems.length)
      return { ...reading, problems: sorted([...slips.problems, ...explained(problems, text)]) };
  }
  return { ...plain, problems: explained(plain.problems, text) };
}

function read(text: string): Parsed {
  const lexed = lex(text);
  const comments = lexed.comments.map(commentOf);
  const signs = lexicalProblems(text, lexed, mostProblems);
  const { file, problems } = bestReading(text, lexed.tokens);
  return { text, file, comments, problems: sorted([...signs, ...withoutSameLine(text, problems, signs)]) };
}

/** The text read as if it had been written without the slips, and what else is wrong in it. */
function readWith(text: string, { rewritings }: Slips): Parsed {
  const lexed = lex(text);
  const isOutside = (span: Span): boolean =>
    !rewritings.some(({ start, end }) => start <= span.start && span.end <= end);
  const isElsewhere = ({ span }: SyntaxProblem): boolean => isOutside(span);
  const signs = lexicalProblems(text, lexed, mostProblems).filter(isElsewhere);
  const reading = bestReading(text, rewrittenTokens(text, rewritings));
  const left = withoutSameLine(text, reading.problems, signs).filter(isElsewhere);
  const comments = lexed.comments.map(commentOf).filter(isOutside);
  return { text, file: reading.file, comments, problems: sorted([...signs, ...left]) };
}

/** A zero character is in no text; a text read in a wrong encoding is full of replacement characters. */
function looksLikeText(text: string): boolean {
  if (text.includes('\0')) return false;
  const sample = text.slice(0, 4096);
  const replaced = sample.split('\ufffd').length - 1;
  return replaced * 20 <= sample.length;
}

/** Of the reading as written and the one with its braces mended, the one with fewer problems. */
function bestReading(text: string, tokens: Token[]): Reading {
  const mended = mendBraces(text, tokens);
  const asWritten = parser.parse(text, tokens);
  if (mended === undefined) return asWritten;
  const reading = parser.parse(text, mended.tokens);
  const problems = [...mended.problems, ...reading.problems];
  return problems.length <= asWritten.problems.length ? { file: reading.file, problems } : asWritten;
}

/** What the parser stumbles over on a line where a sign or a text is already wrong follows from that slip. */
function withoutSameLine(
  text: string,
  problems: readonly SyntaxProblem[],
  slips: readonly SyntaxProblem[],
): readonly SyntaxProblem[] {
  if (slips.length === 0) return problems;
  const lines = new LineTable(text);
  const lineOf = (offset: number): number => lines.positionAt(offset).line;
  const spoilt = new Set(slips.map((slip) => lineOf(slip.span.start)));
  return problems.filter((problem) => !spoilt.has(lineOf(problem.span.start)));
}

function sorted(problems: readonly SyntaxProblem[]): SyntaxProblem[] {
  return [...problems].sort((a, b) => a.span.start - b.span.start).slice(0, mostProblems);
}

function commentOf(token: Token): Comment {
  return { text: token.image, ...spanOf(token) };
}

function spanOf(token: Token): Span {
  return { start: token.startOffset, end: endOf(token) };
}
