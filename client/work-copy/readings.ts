/** Readings as they are typed, and whether they are inside a limit. Numbers are exact. */

import type { JobUnit, ReadingEnds } from '../../shared/job.ts';
import { type Exact, exact } from './exact.ts';

/** The numbers that somebody may have meant, as decimal text: none, one, or one that has to be asked back. */
export interface Typed {
  readonly meanings: readonly string[];
  readonly isSure: boolean;
}

const none: Typed = { meanings: [], isSure: false };

/**
 * A point or a comma before exactly three digits may part thousands or decimals, and so may several of them: then nobody guesses.
 * Nothing that begins with a zero is written in thousands.
 */
export function typedNumber(text: string): Typed {
  const [, sign = '', digits] = /^([+-]?)(\d{1,15}(?:[.,]\d{1,15}){0,5})$/.exec(text.trim().replace('−', '-')) ?? [];
  if (digits === undefined) return none;
  const parts = digits.split(/[.,]/);
  const [first = '', second] = parts;
  const signed = (plain: string) => `${sign === '-' ? '-' : ''}${plain}`;
  if (second === undefined) return { meanings: [signed(first)], isSure: true };
  if (parts.length > 2) return { meanings: grouped(digits, parts).map(signed), isSure: false };
  const asDecimal = signed(`${first}.${second}`);
  if (second.length !== 3 || Number(first) === 0) return { meanings: [asDecimal], isSure: true };
  return { meanings: first.length <= 3 ? [signed(first + second), asDecimal] : [asDecimal], isSure: false };
}

/** `1,020.5` and `1.020.300`; in any other row the marks part nothing that is known. */
function grouped(digits: string, parts: readonly string[]): readonly string[] {
  const marks = digits.replace(/\d/g, '');
  const last = parts[parts.length - 1] ?? '';
  const isThousands = (some: readonly string[]) =>
    (some[0] ?? '').length <= 3 && Number(some[0]) > 0 && some.slice(1).every((part) => part.length === 3);
  const isOneMark = (some: string) => new Set(some).size === 1;
  if (isOneMark(marks)) return isThousands(parts) ? [parts.join('')] : [];
  const whole = parts.slice(0, -1);
  return isOneMark(marks.slice(0, -1)) && isThousands(whole) ? [`${whole.join('')}.${last}`] : [];
}

/** The number in what somebody typed, where there is no doubt about it. */
export function numberIn(text: string): Exact | undefined {
  const { meanings, isSure } = typedNumber(text);
  return isSure ? exact(meanings[0] ?? '') : undefined;
}

export function isInside(value: Exact, { low, high, lowOpen, highOpen }: ReadingEnds): boolean {
  const fromLow = low === undefined ? 1 : value.compare(exact(low));
  const toHigh = high === undefined ? 1 : exact(high).compare(value);
  return (lowOpen ? fromLow > 0 : fromLow >= 0) && (highOpen ? toHigh > 0 : toHigh >= 0);
}

/** The end of the scale that a value is beyond. */
export function beyondScale(
  value: Exact,
  { low, high }: JobUnit,
): { readonly side: 'low' | 'high'; readonly end: string } | undefined {
  if (low !== undefined && value.compare(exact(low)) < 0) return { side: 'low', end: low };
  if (high !== undefined && value.compare(exact(high)) > 0) return { side: 'high', end: high };
  return undefined;
}

// ---------------------------------------------------------------- units

export function toBase(value: Exact, { factor, offset }: JobUnit): Exact {
  const scaled = value.mul(exact(factor));
  return offset === undefined ? scaled : scaled.add(exact(offset));
}

export function fromBase(base: Exact, { factor, offset }: JobUnit): Exact {
  return (offset === undefined ? base : base.sub(exact(offset))).div(exact(factor));
}

export function plain(value: Exact): string {
  return value.toString();
}
