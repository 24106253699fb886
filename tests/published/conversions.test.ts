/** Published conversion factors, and limits that were rounded inward in print. Exact values need no tolerance; printed digits are met to the last one. */
import { describe, expect, test } from 'vitest';
import { exact } from '../../shared/exact.ts';
import { convert, quantityWords, roundedInward } from '../../shared/quantity.ts';
import { unit } from '../../shared/units.ts';

function converted(value: string, from: string, to: string, sense: 'value' | 'difference' = 'value') {
  return convert({ value: exact(value), unit: unit(from) }, unit(to), sense).value;
}

describe('exact by definition (NIST SP 811, appendix B)', () => {
  test.each([
    ['1', 'gal', 'L', '3.785411784'],
    ['1', 'in', 'mm', '25.4'],
    ['1', 'ft', 'm', '0.3048'],
    ['1', 'lb', 'kg', '0.45359237'],
    ['32', 'degF', 'degC', '0'],
    ['59', 'degF', 'degC', '15'],
    ['212', 'degF', 'degC', '100'],
    ['-40', 'degF', 'degC', '-40'],
  ])('%s %s is so many %s', (value, from, to, expected) => {
    expect(converted(value, from, to).toFraction()).toBe(exact(expected).toFraction());
  });

  test('a difference of 18 degF is one of 10 degC', () => {
    expect(converted('18', 'degF', 'degC', 'difference').toFraction()).toBe('10');
  });
});

describe('printed digits (agreed by GNU units, and as in SP 811 appendix B.8)', () => {
  test.each([
    ['1', 'psi', 'kPa', 6.89475729317, 1e-11],
    ['1', 'lbf.ft', 'N.m', 1.35581794833, 1e-11],
    ['1', 'lbf.in', 'N.m', 0.112984829028, 1e-12],
    // The sources differ from the sixth digit on: 3.386389 in SP 811, 3.38638864 in GNU units, 3.3863788 in UCUM.
    ['1', 'inHg', 'kPa', 3.386389, 2e-5],
  ])('%s %s in %s', (value, from, to, expected, tolerance) => {
    expect(Math.abs(converted(value, from, to).valueOf() - expected)).toBeLessThanOrEqual(tolerance);
  });
});

describe('rounded inward: a minimum up, a maximum down', () => {
  function inward(low: string, high: string, from: string, to: string): string {
    const ends = roundedInward(
      { low: { value: exact(low), unit: unit(from) }, high: { value: exact(high), unit: unit(from) } },
      unit(to),
    );
    return ends?.low && ends.high
      ? `${quantityWords(ends.low, 'symbol')} to ${quantityWords(ends.high, 'symbol')}`
      : 'nothing';
  }

  /** Computed for the project's sources; 38 psi is 262.0008 kPa, so that 262 is right by a hair and 263 would be looser. */
  test.each([
    ['30', '38', 'psi', 'kPa', '207 kPa to 262 kPa'],
    ['45', '55', 'lbf.in', 'N.m', '5.1 N.m to 6.2 N.m'],
    ['100', '110', 'lbf.ft', 'N.m', '136 N.m to 149 N.m'],
    ['2950', '3050', 'psi', 'kPa', '20340 kPa to 21020 kPa'],
  ])('%s to %s %s in %s', (low, high, from, to, expected) => {
    expect(inward(low, high, from, to)).toBe(expected);
  });

  /** A workshop manual of 2009 (charm.mcallihan.com, upper and lower limits) prints 2.1 to 2.7 kgf/cm2 as 210 to 260 kPa and 2.7 to 3.2 as 270 to 310. */
  test.each([
    ['2.1', '2.7', '210 to 260'],
    ['2.7', '3.2', '270 to 310'],
  ])('%s to %s kgf/cm2 in kPa', (low, high, expected) => {
    const pascals = exact('98066.5');
    const squareCentimetre = { ...unit('kPa'), symbol: 'kgf/cm2', factor: unit('kPa').factor.mul(pascals).div(1000) };
    const ends = roundedInward(
      { low: { value: exact(low), unit: squareCentimetre }, high: { value: exact(high), unit: squareCentimetre } },
      unit('kPa'),
    );
    expect(`${ends?.low?.value.toFraction()} to ${ends?.high?.value.toFraction()}`).toBe(expected);
  });
});
