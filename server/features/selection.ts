/** What a growing selection takes in next: word, action, step, block, stage, card, file. */
import { pathAt } from '../../grammar/navigate.ts';
import type { Parsed } from '../../grammar/syntax.ts';
import type { Span } from '../../shared/text.ts';

/** The spans around an offset, each larger than the one before it. */
export function selectionsAt({ file, text }: Parsed, offset: number): Span[] {
  const spans = [...pathAt(file, offset)].reverse().map(({ start, end }) => ({ start, end }));
  const whole = { start: 0, end: text.length };
  return [...spans, whole].filter((span, index, all) => {
    const smaller = all[index - 1];
    return !smaller || smaller.end - smaller.start < span.end - span.start;
  });
}
