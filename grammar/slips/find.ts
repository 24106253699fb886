/**
 * Slips of somebody new to the language, who writes as people write elsewhere: `step open the valve`, `0,5 bar`, `IF … THEN`. They are
 * looked for only on lines that could not be read, and one counts only if the text is read further once it is mended.
 */
import type { Span } from '../../shared/text.ts';
import * as messages from '../messages.ts';
import { isFirstOnLine } from '../scan.ts';
import type { SyntaxProblem } from '../syntax.ts';
import { endOf, lex, NumberText, QuotedText, type Token } from '../tokens.ts';
import { conditionSlips } from './conditions.ts';
import { declarationSlips } from './declarations.ts';
import { insteadOf, masked, type Slip } from './slip.ts';
import { stepSlips } from './steps.ts';

const slips: readonly Slip[] = [...declarationSlips, ...stepSlips, ...conditionSlips];

/** A stretch of the text, and what stands there once the slip is mended. */
export interface Rewriting extends Span {
  readonly newText: string;
  /** The code of the problem that it mends. */
  readonly code: string;
  readonly why: string;
}

export interface Slips {
  readonly rewritings: readonly Rewriting[];
  readonly problems: readonly SyntaxProblem[];
}

type ProblemsOf = (text: string) => readonly SyntaxProblem[];
type Edits = readonly (Span & { readonly newText: string })[];

/** A try is a reading of the whole text: so many, and fewer in a long text. */
const manyTries = 16;
const mostRead = 400_000;
const longestText = 200_000;
/** Only the first problems are looked at: what comes after so many is told when they are mended. */
const mostProblems = 16;
const longestLine = 400;

interface Reading {
  readonly text: string;
  readonly problems: readonly SyntaxProblem[];
  readonly file: { readonly declarations: readonly (Span & { readonly type: string })[] };
}

/** The slips on the lines with problems; `problemsOf` reads a text. */
export function slipsIn({ text, problems, file }: Reading, problemsOf: ProblemsOf): Slips {
  if (problems.length === 0 || text.length > longestText) return { rewritings: [], problems: [] };
  const parts = partsWith(problems.slice(0, mostProblems), file.declarations, text);
  const rewritings = parts.flatMap(({ start, end }) =>
    moved(rewritingsIn(text.slice(start, end), text, problemsOf), start),
  );
  return { rewritings, problems: byLine(text, rewritings) };
}

/** The stretches that hold problems, each from where a declaration begins to the next: they can be read by themselves. */
function partsWith(
  problems: readonly SyntaxProblem[],
  declarations: Reading['file']['declarations'],
  text: string,
): Span[] {
  const whole = declarations.filter(({ type, start }) => type !== 'broken' && isFirstOnLine(text, start));
  const starts = [0, ...whole.map(({ start }) => start)];
  const parts = new Map<number, Span>();
  for (const { span } of problems) {
    const index = starts.findLastIndex((start) => start <= span.start);
    const before = text.slice(0, starts[index]).search(/[^\r\n]*$/);
    parts.set(index, { start: before, end: starts[index + 1] ?? text.length });
  }
  return [...parts.values()];
}

function rewritingsIn(text: string, whole: string, problemsOf: ProblemsOf): Rewriting[] {
  const problems = problemsOf(text);
  const mostTries = Math.min(manyTries, Math.ceil(mostRead / text.length));
  const rewritings: Rewriting[] = [];
  let left = problems;
  let tries = 0;
  const tryAll = (line: Span, code: string, most: number): boolean => {
    for (const found of rewritingsOn(line, text, whole)) {
      const rewriting = { ...found, code };
      if (rewritings.some((other) => touches(rewriting, other))) continue;
      if (tries++ >= mostTries) return false;
      const all = [...rewritings, rewriting];
      const after = problemsOf(rewritten(text, all));
      if (after.length > most || !isBetter(after, left, all)) continue;
      rewritings.push(rewriting);
      left = after;
      return true;
    }
    return false;
  };
  /** How many problems the fix leaves that a problem has of itself; a strange sign is often part of a slip. */
  const leftByFix = (edits: Edits): number =>
    edits.some(({ newText }) => newText !== '') && tries++ < mostTries
      ? problemsOf(rewritten(text, edits)).length
      : problems.length;
  for (let at = 0; at < Math.min(left.length, mostProblems) && tries < mostTries; ) {
    const problem = left[at] as SyntaxProblem;
    const { span, code } = problem;
    const most = rewritings.length === 0 && problem.fix ? leftByFix(problem.fix.edits) : problems.length;
    if (most < problems.length && problem.fix && !inserts(problem.fix.edits)) {
      at++;
      continue;
    }
    const line = lineAround(text, original(span.start, rewritings), original(span.end, rewritings));
    if (line.end - line.start > longestLine || !tryAll(line, code, most)) at++;
    else at = 0;
  }
  return rewritings.sort((a, b) => a.start - b.start);
}

/** A word that is put in is only a guess: a slip that leaves no more problems says better what was meant. */
function inserts(edits: Edits): boolean {
  return edits.every(({ start, end }) => start === end);
}

/** Problems in the words of slips of which nobody can say what to write instead, one for each line. */
export function explained(problems: readonly SyntaxProblem[], text: string): readonly SyntaxProblem[] {
  if (problems.length === 0 || text.length > longestText) return problems;
  const inWords = problems.map((problem) => explainedOne(problem, text));
  const isRepeated = (problem: SyntaxProblem, index: number): boolean =>
    problem !== problems[index] && inWords[index - 1]?.message === problem.message;
  return inWords.filter((problem, index) => !isRepeated(problem, index));
}

function explainedOne(problem: SyntaxProblem, text: string): SyntaxProblem {
  const line = lineAround(text, problem.span.start, problem.span.end);
  if (line.end - line.start > longestLine) return problem;
  const hidden = masked(text.slice(line.start, line.end));
  const known = slips.find(({ instead, written }) => instead.length === 0 && hidden.search(written) >= 0);
  return known ? { code: problem.code, span: problem.span, message: known.why } : problem;
}

/** Fewer problems, or the first of as many further on. */
function isBetter(
  after: readonly SyntaxProblem[],
  before: readonly SyntaxProblem[],
  all: readonly Rewriting[],
): boolean {
  const newest = all.at(-1) as Rewriting;
  const from = newest.start + lengthened(all, newest);
  if (after.some(({ span }) => span.start > from && span.start < from + newest.newText.length)) return false;
  if (after.length !== before.length) return after.length < before.length;
  const start = (problems: readonly SyntaxProblem[], rewritings: readonly Rewriting[]): number =>
    original(problems[0]?.span.start ?? 0, rewritings);
  return newest.code === 'syntax.character' || start(after, all) > start(before, all.slice(0, -1));
}

/** By how much what stands before a rewriting has become longer. */
function lengthened(rewritings: readonly Rewriting[], upTo: Span): number {
  return rewritings
    .filter(({ end }) => end <= upTo.start)
    .reduce((sum, { start, end, newText }) => sum + newText.length - (end - start), 0);
}

function* rewritingsOn(line: Span, text: string, whole: string): Generator<Omit<Rewriting, 'code'>> {
  const from = lineAround(text, Math.max(0, line.start - 1), line.start).start;
  const window = text.slice(from, Math.min(text.length, line.end + longestLine));
  const hidden = masked(window);
  for (const slip of slips) {
    for (const match of hidden.matchAll(slip.written) as Iterable<RegExpExecArray>) {
      const start = from + match.index;
      const end = start + match[0].length;
      if (start > line.end) break;
      if (end <= line.start && line.start > 0) continue;
      for (const newText of insteadOf(slip, match, window, whole)) {
        if (newText !== text.slice(start, end)) yield { start, end, newText, why: slip.why };
      }
    }
  }
}

function touches(one: Span, other: Span): boolean {
  return one.start < other.end && other.start < one.end;
}

function lineAround(text: string, start: number, end: number): Span {
  const after = text.slice(end).search(/[\r\n]/);
  const before = Math.max(text.lastIndexOf('\n', start - 1), text.lastIndexOf('\r', start - 1)) + 1;
  return { start: before, end: after < 0 ? text.length : end + after };
}

/** One problem for each line, which shows the whole line as it should stand. */
function byLine(text: string, rewritings: readonly Rewriting[]): SyntaxProblem[] {
  const groups: Rewriting[][] = [];
  for (const rewriting of rewritings) {
    const last = groups.at(-1)?.at(-1);
    const onSameLine = last !== undefined && !/[\r\n]/.test(text.slice(last.end, rewriting.start));
    if (onSameLine) groups.at(-1)?.push(rewriting);
    else groups.push([rewriting]);
  }
  return groups.map((group) => {
    const span = { start: (group[0] as Rewriting).start, end: (group.at(-1) as Rewriting).end };
    const line = lineAround(text, span.start, span.end);
    const whole = rewritten(text.slice(line.start, line.end), moved(group, -line.start));
    const whys = [...new Set(group.map(({ why }) => why))];
    const edits = group.map(({ start, end, newText }) => ({ start, end, newText }));
    return messages.slip((group[0] as Rewriting).code, span, whys.join(' '), whole, edits);
  });
}

function moved(rewritings: readonly Rewriting[], by: number): Rewriting[] {
  return rewritings.map((one) => ({ ...one, start: one.start + by, end: one.end + by }));
}

function rewritten(text: string, rewritings: Edits): string {
  return [...rewritings]
    .sort((a, b) => b.start - a.start)
    .reduce((sofar, { start, end, newText }) => sofar.slice(0, start) + newText + sofar.slice(end), text);
}

/** Where an offset of the rewritten text lies in the one that was written. */
function original(offset: number, rewritings: readonly Rewriting[]): number {
  let moved = 0;
  for (const { start, end, newText } of [...rewritings].sort((a, b) => a.start - b.start)) {
    if (offset <= start + moved) break;
    if (offset < start + moved + newText.length) return Math.min(end, offset - moved);
    moved += newText.length - (end - start);
  }
  return offset - moved;
}

/**
 * The tokens of the rewritten text, each at its place in the text as written: what stands in both keeps its own, so that names are
 * found where they are.
 */
export function rewrittenTokens(text: string, rewritings: readonly Rewriting[]): Token[] {
  const unused = new Map(rewritings.map((one) => [one, tokensIn(text, one)]));
  let moved = 0;
  let next = 0;
  return lex(rewritten(text, rewritings)).tokens.map((token) => {
    let rewriting = rewritings[next];
    while (rewriting && token.startOffset >= rewriting.start + moved + rewriting.newText.length) {
      moved += rewriting.newText.length - (rewriting.end - rewriting.start);
      rewriting = rewritings[++next];
    }
    if (rewriting === undefined || token.startOffset < rewriting.start + moved)
      return { ...token, startOffset: token.startOffset - moved };
    return placed(token, rewriting, unused.get(rewriting) ?? [], text);
  });
}

function tokensIn(text: string, { start, end }: Span): Token[] {
  return lex(text.slice(start, end)).tokens.map((token) => ({ ...token, startOffset: token.startOffset + start }));
}

/** A token of what is written instead. One that is new has no length, so that nobody takes what stands there for it. */
function placed(token: Token, { start, end }: Rewriting, unused: Token[], text: string): Token {
  const same = unused.findIndex(({ image }) => image === token.image);
  if (same >= 0) return { ...token, startOffset: (unused.splice(same, 1)[0] as Token).startOffset };
  const inside = token.image.slice(1, -1);
  const found = token.tokenType === QuotedText ? text.slice(start, end).indexOf(inside) : -1;
  if (found > 0) return { ...token, startOffset: start + found - 1 };
  const isRead = token.tokenType === NumberText || endOf(token) - token.startOffset <= end - start;
  return { ...token, startOffset: start, image: isRead && token.tokenType !== QuotedText ? token.image : '' };
}
