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
  if (span.least.equals(zero)) return words.step.atMostTime(most);
  return words.grammar.upTo(withoutSameUnit(least, most), most);
}

/** `4` of `4 min` before `5 min`. */
function withoutSameUnit(time: string, next: string): string {
  const [[number, ...unit], [, ...others]] = [time.split(' '), next.split(' ')] as [string[], string[]];
  return unit.length === 1 && unit.join() === others.join() ? (number as string) : time;
}

/** Whole milliseconds for a clock; a part of one counts as one. */
export function milliseconds(seconds: Seconds): number {
  return seconds.mul(exact(1000)).ceil().valueOf();
}
