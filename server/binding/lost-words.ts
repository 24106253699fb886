/** Words in stretches of text that the parser did not understand. What is declared there is unknown for that reason and no other. */
import type { Parsed } from '../../grammar/syntax.ts';
import type { Span } from '../../shared/text.ts';
import type { ReachedFile } from './files.ts';

export interface LostWords {
  has(word: string): boolean;
}

const word = /\p{L}[\p{L}\p{N}]*(?:-[\p{L}\p{N}]+)*/gu;

export function lostWords(files: readonly ReachedFile[]): LostWords {
  const lost = new Set<string>();
  for (const { parsed } of files) {
    if (parsed.problems.length === 0) continue;
    for (const span of damagedSpans(parsed)) {
      for (const [found] of parsed.text.slice(span.start, span.end).matchAll(word)) lost.add(found);
    }
  }
  return lost;
}

/** What was skipped, and the lines on which something is wrong. */
function damagedSpans(parsed: Parsed): Span[] {
  const spans = parsed.problems.map(({ span }) => wholeLines(parsed.text, span));
  collectBroken(parsed.file, spans);
  return spans;
}

function wholeLines(text: string, { start, end }: Span): Span {
  const lineEnd = text.indexOf('\n', end);
  return { start: text.lastIndexOf('\n', start - 1) + 1, end: lineEnd < 0 ? text.length : lineEnd };
}

function collectBroken(node: unknown, into: Span[]): void {
  if (typeof node !== 'object' || node === null) return;
  if ('type' in node && node.type === 'broken') into.push(node as unknown as Span);
  else for (const child of Object.values(node)) collectBroken(child, into);
}
