/** Times as they are said on a card: `2 min 30 s`, `2 min to 5 min`. */

import type { Seconds, TimeSpan } from '../../../shared/card.ts';
import { exact, zero } from '../../../shared/exact.ts';
import { durationWords } from '../../../shared/quantity.ts';
import type { FixedWords } from '../language/words.ts';

export function durationText(seconds: Seconds, words: FixedWords): string {
  return durationWords(seconds).replaceAll('.', words.grammar.decimalPoint);
}

export function spanText(span: TimeSpan, words: FixedWords): string {
  const least = durationText(span.least, words);
  if (span.most === undefined) return words.step.atLeastTime(least);
  const most = durationText(span.most, words);
  if (span.most.equals(span.least)) return least;
  return span.least.equals(zero) ? words.step.atMostTime(most) : words.grammar.upTo(least, most);
}

/** Whole milliseconds for a clock; a part of one counts as one. */
export function milliseconds(seconds: Seconds): number {
  return seconds.mul(exact(1000)).ceil().valueOf();
}
