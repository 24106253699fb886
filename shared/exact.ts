import Fraction from 'fraction.js';

/** An exact rational number: card arithmetic never rounds. */
export type Exact = Fraction;

/**
 * Reads a decimal number as it is written in a card, or takes a whole number, or a fraction of two whole numbers.
 * Throws where the text is no number; the parser lets nothing else through.
 */
export function exact(value: string | number | bigint, denominator?: number | bigint): Exact {
  return denominator === undefined ? new Fraction(value) : new Fraction(BigInt(value), BigInt(denominator));
}

export const zero: Exact = exact(0);

export function isExact(value: object): value is Exact {
  return value instanceof Fraction;
}

export function isNegative(value: Exact): boolean {
  return value.s < 0n;
}

export function smaller(a: Exact, b: Exact): Exact {
  return a.compare(b) <= 0 ? a : b;
}

export function larger(a: Exact, b: Exact): Exact {
  return a.compare(b) >= 0 ? a : b;
}

/**
 * The number in decimal digits, without an exponent: all its digits where they end within `most` places, else rounded
 * to the nearest of `most` places. `least` keeps zeros at the end: `decimal(24, 1)` is `24.0`.
 */
export function decimal(value: Exact, least = 0, most = 6): string {
  const rounded = value.round(most);
  const digits = ((rounded.n * 10n ** BigInt(most)) / rounded.d).toString().padStart(most + 1, '0');
  const whole = digits.slice(0, digits.length - most);
  const places = digits
    .slice(digits.length - most)
    .replace(/0+$/, '')
    .padEnd(least, '0');
  return `${rounded.s < 0n ? '-' : ''}${whole}${places === '' ? '' : `.${places}`}`;
}

/** How many decimal places the number needs; undefined where its digits never end. */
export function decimalPlaces(value: Exact): number | undefined {
  let rest = value.d;
  let places = 0;
  while (rest % 10n === 0n) [rest, places] = [rest / 10n, places + 1];
  for (const factor of [2n, 5n]) {
    while (rest % factor === 0n) [rest, places] = [rest / factor, places + 1];
  }
  return rest === 1n ? places : undefined;
}
