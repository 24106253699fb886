/** What the formatter leaves as it is written, because nobody can say how it is to be read. */
import type { Span } from '../../shared/text.ts';
import type { Declaration, Parsed, SyntaxProblem } from '../syntax.ts';
import { endOf, lex } from '../tokens.ts';

/**
 * The stretches from the first to the last word of what holds a problem or belongs to no declaration, and of what stands on a
 * line with it; undefined where a problem lies in none.
 */
export function stretchesWithSlips({ text, file, problems }: Parsed): Span[] | undefined {
  if (problems.length === 0) return [];
  const isInNone = ({ span }: SyntaxProblem): boolean => !file.declarations.some((one) => isIn(span, one));
  if (problems.some(isInNone)) return undefined;
  const stretches: Span[] = [];
  const sound = file.declarations.filter(
    (declaration) => declaration.type !== 'broken' && !problems.some(({ span }) => isIn(span, declaration)),
  );
  const words = lex(text).tokens.map((token) => ({ start: token.startOffset, end: endOf(token) }));
  let index = 0;
  for (const word of words) {
    while ((sound[index]?.end ?? Infinity) <= word.start) index++;
    if (isIn(word, sound[index])) continue;
    const last = stretches.at(-1);
    if (last && last.end > (sound[index - 1]?.end ?? -1)) stretches[stretches.length - 1] = { ...last, end: word.end };
    else stretches.push(word);
  }
  return joined(text, stretches, sound);
}

/** With the sound declarations that share a line with a stretch, or with others that do. */
function joined(text: string, stretches: readonly Span[], sound: readonly Declaration[]): Span[] {
  const all: { span: Span; asWritten: boolean }[] = [
    ...stretches.map((span) => ({ span, asWritten: true })),
    ...sound.map((span) => ({ span, asWritten: false })),
  ].sort((a, b) => a.span.start - b.span.start);
  const result: typeof all = [];
  for (const one of all) {
    const last = result.at(-1);
    const onOneLine = last !== undefined && !/[\r\n]/.test(text.slice(last.span.end, one.span.start));
    if (onOneLine) {
      const span = { start: last.span.start, end: one.span.end };
      result[result.length - 1] = { span, asWritten: last.asWritten || one.asWritten };
    } else result.push(one);
  }
  return result.filter(({ asWritten }) => asWritten).map(({ span: { start, end } }) => ({ start, end }));
}

function isIn(inner: Span, outer: Span | undefined): boolean {
  return outer !== undefined && outer.start <= inner.start && inner.end <= outer.end;
}
