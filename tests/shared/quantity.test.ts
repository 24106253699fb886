import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Bound } from '../../shared/card.ts';
import { decimal, exact } from '../../shared/exact.ts';
import {
  boundWords,
  convert,
  durationWords,
  quantityWords,
  roundedInward,
  roundedNearest,
  secondBoundWords,
} from '../../shared/quantity.ts';
import { type Quantity, unit, units } from '../../shared/units.ts';

function quantity(value: string, symbol: string): Quantity {
  return { value: exact(value), unit: unit(symbol) };
}

function inward(low: string, high: string, from: string, to: string): string | undefined {
  const ends = roundedInward({ low: quantity(low, from), high: quantity(high, from) }, unit(to));
  return ends?.low && ends.high && `${decimal(ends.low.value)}-${decimal(ends.high.value)}`;
}

describe('rounding inward', () => {
  /** A published car manual (2009) that explains its rounding: 2.1 to 2.7 and 2.7 to 3.2 kgf/cm2 in two other units. */
  test.each([
    ['2.1', '2.7', 'kPa', '210-260'],
    ['2.7', '3.2', 'kPa', '270-310'],
    ['2.1', '2.7', 'psi', '30-38'],
    ['2.7', '3.2', 'psi', '39-45'],
  ])('the manual: %s to %s kgf/cm2 in %s is %s', (low, high, to, expected) => {
    expect(inward(low, high, 'kgf/cm2', to)).toBe(expected);
  });

  /** Worked out by hand from the exact factors: 262.0008 kPa is 262, and 263 would be the looser limit. */
  test.each([
    ['30', '38', 'psi', 'kPa', '207-262'],
    ['45', '55', 'lbf.in', 'N.m', '5.1-6.2'],
    ['100', '110', 'lbf.ft', 'N.m', '136-149'],
    ['2950', '3050', 'psi', 'kPa', '20340-21020'],
    ['-40', '15', 'degF', 'degC', '-40--9.5'],
    ['1', '2', 'bar', 'psi', '15-29'],
    ['1', '5', 'gal', 'L', '4-18'],
  ])('%s to %s %s in %s is %s', (low, high, from, to, expected) => {
    expect(inward(low, high, from, to)).toBe(expected);
  });

  test('a narrow range gets finer digits, and one that leaves nothing none at all', () => {
    expect(inward('10', '10.1', 'psi', 'kPa')).toBe('69-69.6');
    expect(inward('10', '10', 'psi', 'kPa')).toBeUndefined();
    expect(inward('32', '32', 'degF', 'degC')).toBe('0-0');
  });

  test('is never the looser one', () => {
    const pairs = units.flatMap((from) => from.counterparts.map((to) => [from, unit(to)] as const));
    const number = fc.tuple(fc.integer({ min: -50_000, max: 50_000 }), fc.integer({ min: 0, max: 3 }));
    fc.assert(
      fc.property(fc.constantFrom(...pairs), number, number, ([from, to], [a, places], [b]) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)].map((value) => ({
          value: exact(value, 10 ** places),
          unit: from,
        }));
        const ends = roundedInward({ ...(low && { low }), ...(high && { high }) }, to);
        if (!ends?.low || !ends.high || !low || !high) return;
        expect(ends.low.value.compare(convert(low, to).value)).toBeGreaterThanOrEqual(0);
        expect(ends.high.value.compare(convert(high, to).value)).toBeLessThanOrEqual(0);
      }),
    );
  });
});

test('a reading is rounded to the nearest', () => {
  expect(quantityWords(roundedNearest(quantity('38', 'psi'), unit('kPa')))).toBe('262 kPa');
  expect(quantityWords(roundedNearest(quantity('0', 'degF'), unit('degC')))).toBe('-17.8 °C');
});

describe('words', () => {
  test.each([
    ['270', '4 min 30 s'],
    ['30', '30 s'],
    ['60', '1 min'],
    ['7200', '2 h'],
    ['90061.5', '25 h 1 min 1.5 s'],
    ['0', '0 s'],
  ])('%s s is %s', (seconds, words) => {
    expect(durationWords(exact(seconds))).toBe(words);
  });

  test('quantities keep the zeros that were written', () => {
    expect(quantityWords({ ...quantity('24.0', 'V'), places: 1 })).toBe('24.0 V');
    expect(quantityWords(quantity('-40', 'degC'))).toBe('-40 °C');
    expect(quantityWords(quantity('-40', 'degC'), 'symbol')).toBe('-40 degC');
  });

  const place = { file: 'a.card', start: 0, end: 0 };
  const bound = (form: Bound['form'], parts: Partial<Bound>): Bound => ({ form, interval: {}, place, ...parts });
  const [low, high] = [quantity('30', 'psi'), quantity('38', 'psi')];

  test.each([
    [bound('at least', { low }), 'at least 30 psi', 'at least 207 kPa'],
    [bound('below', { high }), 'below 38 psi', 'below 262 kPa'],
    [bound('range', { low, high }), '30 to 38 psi', '207 to 262 kPa'],
    [
      bound('exactly', { low, high, exactly: quantity('34', 'psi'), tolerance: quantity('4', 'psi') }),
      'exactly 34 psi ± 4 psi',
      '207 to 262 kPa',
    ],
    [bound('exactly', { low, high: low, exactly: low }), 'exactly 30 psi', 'about 207 kPa'],
    [bound('range', { low: quantity('2', 'bar'), high }), '2 bar to 38 psi', undefined],
  ])('%#: %s', (each, words, second) => {
    expect(boundWords(each)).toBe(words);
    expect(secondBoundWords(each, 'metric')).toBe(second);
  });
});

describe('decimal digits', () => {
  test.each([
    ['0.5', '0.5'],
    ['-0.05', '-0.05'],
    ['1200', '1200'],
    ['1/3', '0.333333'],
    ['0', '0'],
    ['123456789012345678901234567890.5', '123456789012345678901234567890.5'],
  ])('%s is %s', (value, digits) => {
    expect(decimal(exact(value))).toBe(digits);
  });

  test('agree with those of a number that ends', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 0, max: 6 }), (value, places) => {
        expect(Number(decimal(exact(value, 10 ** places)))).toBe(value / 10 ** places);
      }),
    );
  });
});
