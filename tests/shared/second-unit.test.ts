/** A second unit at its edges: powers of ten, zero, narrow ranges, written zeros, differences. */
import { expect, test } from 'vitest';
import type { Bound, Gauge } from '../../shared/card.ts';
import { decimal, exact } from '../../shared/exact.ts';
import {
  boundWords,
  convert,
  durationWords,
  fromBase,
  numberToBase,
  roundedInward,
  roundedNearest,
  type Sense,
  secondBoundWords,
  senseOf,
  toBase,
} from '../../shared/quantity.ts';
import { type Quantity, unit } from '../../shared/units.ts';

const quantity = (value: string, symbol: string, places?: number): Quantity => ({
  value: exact(value),
  unit: unit(symbol),
  ...(places !== undefined && { places }),
});

const atLeast = (value: string, from: string, to: string, sense: Sense = 'value', places?: number) => {
  const low = roundedInward({ low: quantity(value, from, places) }, unit(to), sense)?.low;
  return low && decimal(low.value);
};

const atMost = (value: string, from: string, to: string, sense: Sense = 'value') => {
  const high = roundedInward({ high: quantity(value, from) }, unit(to), sense)?.high;
  return high && decimal(high.value);
};

test('a least is rounded up, a greatest down', () => {
  expect([atLeast('30', 'psi', 'kPa'), atMost('30', 'psi', 'kPa')]).toEqual(['207', '206']);
  expect([atLeast('-30', 'degC', 'degF'), atMost('-31', 'degC', 'degF')]).toEqual(['-22', '-24']);
  expect([atLeast('1', 'm', 'mm'), atMost('1', 'm', 'mm')]).toEqual(['1000', '1000']);
});

test('no digit is finer than the last that was written', () => {
  expect([atLeast('30', 'mm', 'in'), atLeast('30.0', 'mm', 'in', 'value', 1)]).toEqual(['1.19', '1.182']);
  expect([atLeast('2', 'bar', 'psi'), atLeast('2.0', 'bar', 'psi', 'value', 1)]).toEqual(['30', '30']);
  expect([atLeast('2.00', 'bar', 'psi', 'value', 2)]).toEqual(['29.1']);
});

test('at least two digits and at most four', () => {
  expect(atLeast('1', 'bar', 'psi')).toBe('15');
  expect(atLeast('1', 'gal', 'L')).toBe('3.8');
  expect(atLeast('123456', 'psi', 'kPa')).toBe('851200');
  expect(atLeast('12345.678', 'mm', 'in')).toBe('486.1');
});

test('a place that is finer by less than a twentieth counts as the same', () => {
  expect(
    roundedInward({ low: quantity('2.1', 'kgf/cm2'), high: quantity('2.7', 'kgf/cm2') }, unit('kPa')),
  ).toMatchObject({
    low: { value: exact(210) },
    high: { value: exact(260) },
  });
});

test.each(['1', '10', '100', '1000', '10000', '0.1', '0.01', '0.001'])(
  '%s of a unit is itself in the unit',
  (value) => {
    expect(atLeast(value, 'kPa', 'kPa')).toBe(value);
    expect(atMost(value, 'kPa', 'kPa')).toBe(value);
  },
);

test('zero, and what is beside it', () => {
  expect(atLeast('0', 'psi', 'kPa')).toBe('0');
  expect(atLeast('32', 'degF', 'degC')).toBe('0');
  expect(atLeast('33', 'degF', 'degC')).toBe('0.56');
});

test('a narrow range is drawn ten times finer three times, and then given up', () => {
  const inward = (low: string, high: string) => {
    const ends = roundedInward({ low: quantity(low, 'psi'), high: quantity(high, 'psi') }, unit('kPa'));
    return ends && `${decimal((ends.low as Quantity).value)} to ${decimal((ends.high as Quantity).value)}`;
  };
  expect(inward('10', '10.1')).toBe('69 to 69.6');
  expect(inward('10.00', '10.01')).toBe('68.95 to 69.01');
  expect(inward('10.000', '10.001')).toBe('68.95 to 68.95');
  expect(inward('10.0000', '10.0001')).toBe('68.948 to 68.948');
  expect(inward('10.00002', '10.00003')).toBe('68.94772 to 68.94777');
  expect(inward('10', '10.000001')).toBeUndefined();
  expect(inward('30', '30')).toBeUndefined();
});

test('a difference has no zero to be shifted', () => {
  expect([atLeast('18', 'degF', 'degC'), atLeast('18', 'degF', 'degC', 'difference')]).toEqual(['-7.7', '10']);
  expect(decimal(roundedNearest(quantity('18', 'degF'), unit('degC')).value)).toBe('-7.8');
  expect(decimal(roundedNearest(quantity('18', 'degF'), unit('degC'), 'difference').value)).toBe('10');
});

test('to the base unit and back', () => {
  expect(toBase(quantity('32', 'degF')).equals(numberToBase(exact(0), unit('degC')))).toBe(true);
  expect(toBase(quantity('18', 'degF'), 'difference').equals(exact(10))).toBe(true);
  expect(fromBase(toBase(quantity('18', 'degF')), unit('degF')).equals(exact(18))).toBe(true);
  expect(fromBase(exact(10), unit('degF'), 'difference').equals(exact(18))).toBe(true);
  const once = quantity('32', 'degF');
  const value = exact(27_315, 100);
  expect(toBase(once).equals(value) && toBase(once).equals(value)).toBe(true);
  expect(toBase(once, 'difference').equals(exact(160, 9))).toBe(true);
});

test('other dimensions are no other unit', () => {
  expect(() => convert(quantity('1', 'psi'), unit('degC'))).toThrow('psi cannot be converted to degC');
});

const plain = { difference: undefined } as Gauge;
const worked = (left: Gauge, sign: '-' | '+', right: Gauge) => ({ difference: { left, sign, right } }) as Gauge;
const difference = worked(plain, '-', plain);

test.each([
  ['a gauge', plain, 'value'],
  ['value - value', difference, 'difference'],
  ['value + value', worked(plain, '+', plain), 'value'],
  ['value - difference', worked(plain, '-', difference), 'value'],
  ['difference - value', worked(difference, '-', plain), 'difference'],
  ['difference - difference', worked(difference, '-', difference), 'difference'],
  ['value + difference', worked(plain, '+', difference), 'value'],
  ['difference + value', worked(difference, '+', plain), 'value'],
  ['difference + difference', worked(difference, '+', difference), 'difference'],
] as const)('%s shows a %s', (_, gauge, sense) => {
  expect(senseOf(gauge)).toBe(sense);
});

const place = { file: 'a.card', start: 0, end: 0 };
const bound = (form: Bound['form'], parts: Partial<Bound>): Bound => ({ form, interval: {}, place, ...parts });

test('a bound that is the reader’s already has no second unit', () => {
  const low = quantity('30', 'psi');
  expect(secondBoundWords(bound('at least', { low }), 'us')).toBeUndefined();
  expect(secondBoundWords(bound('at least', { low }), 'metric')).toBe('at least 207 kPa');
  expect(secondBoundWords(bound('at most', { high: low }), 'metric')).toBe('at most 206 kPa');
  expect(secondBoundWords(bound('at least', {}), 'metric')).toBeUndefined();
});

test('a bound in the words of the language', () => {
  const [low, high] = [quantity('-40', 'degC'), quantity('5', 'degC')];
  expect(boundWords(bound('range', { low, high }), 'symbol')).toBe('-40 to 5 degC');
  expect(boundWords(bound('range', { low, high: quantity('5', 'degF') }), 'symbol')).toBe('-40 degC to 5 degF');
  expect(boundWords(bound('range', { low }))).toBe('');
  expect(boundWords(bound('exactly', { exactly: low, tolerance: high }), 'symbol')).toBe('exactly -40 degC +/- 5 degC');
  expect(boundWords(bound('exactly', { exactly: low }))).toBe('exactly -40 °C');
  expect(boundWords(bound('above', { low }))).toBe('above -40 °C');
});

test.each([
  ['3600', '1 h'],
  ['3599', '59 min 59 s'],
  ['3661', '1 h 1 min 1 s'],
  ['3660', '1 h 1 min'],
  ['59.5', '59.5 s'],
  ['120', '2 min'],
])('%s s is %s', (seconds, words) => {
  expect(durationWords(exact(seconds))).toBe(words);
});

test('just below a power of ten is not that power', () => {
  const nines = '999.99999999999999999';
  expect(atMost(nines, 'kPa', 'kPa')).toBe('999.9');
  expect(atMost('1000', 'kPa', 'kPa')).toBe('1000');
  expect(decimal(roundedNearest(quantity('0.00099999999999999999999', 'm'), unit('m')).value)).toBe('0.001');
});

test('a number whose digits never end has the least digits', () => {
  const third = { value: exact(100, 3), unit: unit('kPa') };
  expect(decimal(roundedNearest(third, unit('kPa')).value)).toBe('33');
});
