import Fraction from 'fraction.js';

/** An exact rational number: card arithmetic never rounds. */
export type Exact = Fraction;

/** Reads a decimal number as it is written in a card, or takes a whole number or a fraction. */
export function exact(value: string | number | bigint, denominator?: number | bigint): Exact {
  return denominator === undefined ? new Fraction(value) : new Fraction(BigInt(value), BigInt(denominator));
}

export const zero: Exact = exact(0);

export function smaller(a: Exact, b: Exact): Exact {
  return a.compare(b) <= 0 ? a : b;
}

export function larger(a: Exact, b: Exact): Exact {
  return a.compare(b) >= 0 ? a : b;
}
