/** Figures in a sentence: bounds for a gauge, and lengths of time, written as the language has them. */

import { type Dimension, findUnit } from '../../shared/units.ts';
import { tokensOf } from './tokens.ts';
import type { Gauge } from './vocabulary.ts';

const number = '[-−]?\\d+(?:[.,]\\d+)?';
const unit = '[%°ΩΩ℃\\p{L}][\\p{L}\\p{N}°%/·⋅.²-]*';
const one = `(${number})\\s*(${unit})`;
const range = new RegExp(
  `(?:between|from)?\\s*(${number})\\s*(${unit})?\\s*(?:to|and|-|–|…)\\s*(?:${one})`.replace(
    '(?:to',
    '(?:(?<=\\s)(?:to|and)\\b',
  ),
  'iu',
);
const tolerance = new RegExp(`${one}\\s*(?:±|\\+/-|plus or minus)\\s*${one}`, 'iu');

const greater = '(?:more|greater|higher|larger|bigger|longer|warmer|hotter|faster|heavier|stronger)';
const less = '(?:less|fewer|lower|smaller|shorter|cooler|colder|slower|lighter|weaker)';

/** What may stand before a figure, the longest first, and how the language says it. */
const forms: readonly (readonly [RegExp, string])[] = [
  [
    new RegExp(
      `(?:at most|(?:no|not(?: be)?) ${greater} than|not (?:be )?(?:above|over)|not exceed|maximum of|maximum|max\\.?|up to|≤)\\s*$`,
      'iu',
    ),
    'at most',
  ],
  [
    new RegExp(
      `(?:at least|(?:no|not(?: be)?) ${less} than|not (?:be )?(?:below|under)|minimum of|minimum|min\\.?|≥)\\s*$`,
      'iu',
    ),
    'at least',
  ],
  [new RegExp(`(?:above|over|${greater} than|exceeds?|>)\\s*$`, 'iu'), 'above'],
  [new RegExp(`(?:below|under|${less} than|<)\\s*$`, 'iu'), 'below'],
];
const after: readonly (readonly [RegExp, string])[] = [
  [/^\s*(?:or less|or lower|at most|maximum|max\b)/i, 'at most'],
  [/^\s*(?:or more|or higher|at least|minimum|min\b)/i, 'at least'],
];

/** A bound as a figure, or as a slot with the name of a limit. */
export function boundOf(text: string, gauge: Gauge): string | undefined {
  const slot = tokensOf(text).find(({ name, limit }) => name === gauge.name && limit !== undefined);
  return slot ? `in ${slot.limit}` : boundIn(text, gauge.unit.dimension);
}

/** The first bound of a dimension in a text: `must be below 5 bar` gives `below 5 bar`. */
function boundIn(text: string, dimension: Dimension): string | undefined {
  const plain = text.replace(/\([^()]*\)/gu, ' ');
  const near = tolerance.exec(plain);
  if (near && measured(near[2], dimension) && measured(near[4], dimension)) {
    return `exactly ${quantity(near[1], near[2])} +/- ${quantity(near[3], near[4])}`;
  }
  const between = range.exec(plain);
  if (between && measured(between[4], dimension) && (between[2] === undefined || measured(between[2], dimension))) {
    return `${quantity(between[1], between[2] ?? between[4])} to ${quantity(between[3], between[4])}`;
  }
  const figures = [...plain.matchAll(new RegExp(one, 'giu'))].filter((match) => measured(match[2], dimension));
  const bounds = figures.map((match) => ({ match, form: formOf(match, plain) }));
  const meant = bounds.find(({ form }) => form !== undefined) ?? bounds[0];
  if (!meant || (!meant.form && /\bthan\s*$/i.test(plain.slice(0, meant.match.index)))) return undefined;
  return `${meant.form ?? 'exactly'} ${quantity(meant.match[1], meant.match[2])}`;
}

/** The words of a bound before a figure, or behind it. */
function formOf(match: RegExpExecArray, text: string): string | undefined {
  const before = text.slice(0, match.index);
  const written = match[2] ?? '';
  const rest = text.slice(match.index + match[0].length - (written.length - symbolOf(written).length));
  return (forms.find(([words]) => words.test(before)) ?? after.find(([words]) => words.test(rest)))?.[1];
}

const symbolOf = (written = ''): string => written.replace(/[.\-/]+$/u, '');

function measured(written: string | undefined, dimension: Dimension): boolean {
  return written !== undefined && findUnit(symbolOf(written))?.dimension === dimension;
}

function quantity(value = '', written = ''): string {
  return `${value.replace('−', '-').replace(',', '.')} ${findUnit(symbolOf(written))?.symbol ?? ''}`;
}

// ---------------------------------------------------------------- lengths of time

const counts = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const tens: Readonly<Record<string, number>> = {
  a: 1,
  an: 1,
  fifteen: 15,
  twenty: 20,
  thirty: 30,
  forty: 40,
  sixty: 60,
};
const timeUnit = 's|secs?|seconds?|min|mins|minutes?|h|hrs?|hours?';
const single = new RegExp(
  `^\\s*(\\d+(?:[.,]\\d+)?|${[...counts, ...Object.keys(tens)].join('|')})\\s*-?(${timeUnit})\\b`,
  'iu',
);

/** A length of time at the start of a text: `for 3 minutes` gives `3 min`. */
export function timeAt(text: string): string | undefined {
  const first = plainTime(
    text.replace(/^\s*(?:,\s*)?(?:for|during)?\s*(?:about|around|another|a further|the next)?\s*/i, ''),
  );
  if (!first) {
    const least = /^\s*(?:for\s+)?at least\s+/i.exec(text);
    const time = least && plainTime(text.slice(least[0].length));
    return time ? `at least ${time.words}` : undefined;
  }
  const to = /^\s*(?:to|-|–)\s*/u.exec(first.rest);
  const second = to && plainTime(first.rest.slice(to[0].length));
  return second ? `${first.words} to ${second.words}` : first.words;
}

function plainTime(text: string): { readonly words: string; readonly rest: string } | undefined {
  const parts: string[] = [];
  let rest = text;
  for (let match = single.exec(rest); match; match = single.exec(rest)) {
    parts.push(`${amount(match[1])} ${findUnit((match[2] ?? '').toLowerCase())?.symbol ?? ''}`);
    rest = rest.slice(match[0].length);
  }
  return parts.length > 0 ? { words: parts.join(' '), rest } : undefined;
}

function amount(written = ''): string {
  const word = written.toLowerCase();
  const count = counts.indexOf(word);
  return String(count >= 0 ? count + 1 : (tens[word] ?? written.replace(',', '.')));
}

/** The time within which something must be so: `within 5 min`, `, for 1 min at most`. */
export function withinIn(text: string): string | undefined {
  const within = /\bwithin\s+(.*)$/i.exec(text)?.[1] ?? /,\s*for\s+(.*?)\s+at most/i.exec(text)?.[1];
  return within === undefined ? undefined : plainTime(within)?.words;
}
