/** Which machines something is for, in words: `unit 3 to 5 and 7, fit old`. */
import type { Variant, Which } from '../../../shared/card.ts';
import type { FixedWords } from '../language/words.ts';
import { spoken } from './labels.ts';

export function whichText({ parts }: Which, words: FixedWords): string {
  return parts
    .map(({ variant, values }) => `${spoken(variant.name)} ${words.grammar.and(runsOf(variant, values, words))}`)
    .join(', ');
}

/** Three numbers in a row and more are said as a range. */
function runsOf(variant: Variant, values: readonly string[], words: FixedWords): readonly string[] {
  if (!variant.numeric) return values.map(spoken);
  const runs: { first: string; last: string; index: number; count: number }[] = [];
  for (const value of variant.values.filter((own) => values.includes(own))) {
    const index = variant.values.indexOf(value);
    const run = runs.at(-1);
    if (run && run.index === index - 1) Object.assign(run, { last: value, index, count: run.count + 1 });
    else runs.push({ first: value, last: value, index, count: 1 });
  }
  return runs.flatMap(({ first, last, count }) =>
    count > 2 ? words.grammar.upTo(first, last) : first === last ? first : [first, last],
  );
}
