/** The table of units against published factors and against two independent libraries. */
import { UcumLhcUtils } from '@lhncbc/ucum-lhc';
import { create, all as everything, type FactoryFunctionMap } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { exact } from '../../shared/exact.ts';
import { convert, numberToBase } from '../../shared/quantity.ts';
import { counterpart, findUnit, unit, units } from '../../shared/units.ts';

const mathjs = create(everything as FactoryFunctionMap);
const ucum = UcumLhcUtils.getInstance();

/** One of the first unit in the second. */
function factor(from: string, to: string): number {
  return convert({ value: exact(1), unit: unit(from) }, unit(to), 'difference').value.valueOf();
}

/** NIST SP 811 (2008), appendix B.8, in the digits printed there. */
const published: readonly (readonly [string, string, number])[] = [
  ['psi', 'kPa', 6.894757],
  ['inHg', 'kPa', 3.386389],
  ['kgf/cm2', 'kPa', 98.0665],
  ['bar', 'kPa', 100],
  ['gal', 'L', 3.785412],
  ['qt', 'L', 0.9463529],
  ['lbf.ft', 'N.m', 1.355818],
  ['lbf.in', 'N.m', 0.1129848],
  ['kgf.m', 'N.m', 9.80665],
  ['lbf', 'N', 4.448222],
  ['lb', 'kg', 0.4535924],
  ['oz', 'g', 28.34952],
  ['in', 'mm', 25.4],
  ['ft', 'm', 0.3048],
  ['kt', 'm/s', 0.5144444],
  ['hp', 'W', 745.6999],
  ['degF', 'degC', 0.5555556],
];

test.each(published)('%s in %s, as SP 811 prints it', (from, to, digits) => {
  expect(Number(factor(from, to).toPrecision(7))).toBe(digits);
});

/** As UCUM and mathjs write the same units; a unit that a library has not got is left out. */
const elsewhere: readonly {
  readonly from: string;
  readonly to: string;
  readonly ucum?: readonly [string, string];
  readonly mathjs?: readonly [string, string];
}[] = [
  { from: 'psi', to: 'kPa', ucum: ['[psi]', 'kPa'], mathjs: ['psi', 'kPa'] },
  { from: 'bar', to: 'psi', ucum: ['bar', '[psi]'], mathjs: ['bar', 'psi'] },
  { from: 'psi/min', to: 'kPa/min', ucum: ['[psi]/min', 'kPa/min'], mathjs: ['psi/minute', 'kPa/minute'] },
  { from: 'gal', to: 'L', ucum: ['[gal_us]', 'L'], mathjs: ['gallon', 'L'] },
  { from: 'qt', to: 'mL', ucum: ['[qt_us]', 'mL'], mathjs: ['quart', 'mL'] },
  { from: 'floz', to: 'mL', ucum: ['[foz_us]', 'mL'], mathjs: ['fluidounce', 'mL'] },
  { from: 'gal/min', to: 'L/min', ucum: ['[gal_us]/min', 'L/min'], mathjs: ['gallon/minute', 'L/minute'] },
  { from: 'gal/h', to: 'L/h', ucum: ['[gal_us]/h', 'L/h'], mathjs: ['gallon/hour', 'L/hour'] },
  { from: 'lb/h', to: 'kg/h', ucum: ['[lb_av]/h', 'kg/h'], mathjs: ['lb/hour', 'kg/hour'] },
  { from: 'lb/min', to: 'kg/h', ucum: ['[lb_av]/min', 'kg/h'], mathjs: ['lb/minute', 'kg/hour'] },
  { from: 'lbf.ft', to: 'N.m', ucum: ['[lbf_av].[ft_i]', 'N.m'], mathjs: ['lbf ft', 'N m'] },
  { from: 'lbf.in', to: 'N.m', ucum: ['[lbf_av].[in_i]', 'N.m'], mathjs: ['lbf inch', 'N m'] },
  { from: 'kgf.m', to: 'N.m', ucum: ['kgf.m', 'N.m'], mathjs: ['kgf m', 'N m'] },
  { from: 'lbf', to: 'N', ucum: ['[lbf_av]', 'N'], mathjs: ['lbf', 'N'] },
  { from: 'in', to: 'mm', ucum: ['[in_i]', 'mm'], mathjs: ['inch', 'mm'] },
  { from: 'ft', to: 'm', ucum: ['[ft_i]', 'm'], mathjs: ['ft', 'm'] },
  { from: 'kt', to: 'km/h', ucum: ['[kn_i]', 'km/h'] },
  { from: 'lb', to: 'kg', ucum: ['[lb_av]', 'kg'], mathjs: ['lb', 'kg'] },
  { from: 'oz', to: 'g', ucum: ['[oz_av]', 'g'], mathjs: ['oz', 'g'] },
  { from: 'hp', to: 'W', ucum: ['[HP]', 'W'], mathjs: ['hp', 'W'] },
  { from: 'kV', to: 'V', ucum: ['kV', 'V'], mathjs: ['kV', 'V'] },
  { from: 'mA', to: 'A', ucum: ['mA', 'A'], mathjs: ['mA', 'A'] },
  { from: 'Mohm', to: 'ohm', ucum: ['MOhm', 'Ohm'], mathjs: ['Mohm', 'ohm'] },
  { from: 'kHz', to: 'Hz', ucum: ['kHz', 'Hz'], mathjs: ['kHz', 'Hz'] },
  { from: 'mg/L', to: 'g/L', ucum: ['mg/L', 'g/L'], mathjs: ['mg/L', 'g/L'] },
  { from: 'ug/L', to: 'mg/L', ucum: ['ug/L', 'mg/L'], mathjs: ['ug/L', 'mg/L'] },
  { from: 'mS/cm', to: 'uS/cm', ucum: ['mS/cm', 'uS/cm'], mathjs: ['mS/cm', 'uS/cm'] },
  { from: 'h', to: 's', ucum: ['h', 's'], mathjs: ['hour', 's'] },
  { from: 'min', to: 's', ucum: ['min', 's'], mathjs: ['minute', 's'] },
];

test.each(elsewhere.filter((each) => each.ucum))(
  '$from in $to agrees with UCUM',
  ({ from, to, ucum: [a, b] = ['', ''] }) => {
    expect(relativeError(factor(from, to), ucum.convertUnitTo(a, 1, b).toVal ?? 0)).toBeLessThan(1e-9);
  },
);

test.each(elsewhere.filter((each) => each.mathjs))(
  '$from in $to agrees with mathjs',
  ({ from, to, mathjs: [a, b] = ['', ''] }) => {
    expect(relativeError(factor(from, to), mathjs.unit(1, a).toNumber(b))).toBeLessThan(1e-9);
  },
);

function relativeError(value: number, other: number): number {
  return Math.abs(value - other) / Math.abs(other);
}

/** UCUM starts from another millimetre of mercury: 3386.3788 Pa, against the conventional 3386.38864 Pa used here. */
test('the inch of mercury is the conventional one, within 1e-5 of that of UCUM', () => {
  expect(numberToBase(exact(1), unit('inHg')).toString()).toBe('3386.388640341');
  const { toVal } = ucum.convertUnitTo("[in_i'Hg]", 1, 'kPa');
  expect(relativeError(factor('inHg', 'kPa'), toVal as number)).toBeLessThan(1e-5);
});

/** The fixed points of the two scales. */
test.each([
  [-40, -40],
  [32, 0],
  [59, 15],
  [212, 100],
])('%d °F is %d °C, and back', (fahrenheit, celsius) => {
  const inC = convert({ value: exact(fahrenheit), unit: unit('degF') }, unit('degC'));
  expect(inC.value.equals(celsius)).toBe(true);
  expect(convert(inC, unit('degF')).value.equals(fahrenheit)).toBe(true);
  expect(mathjs.unit(fahrenheit, 'degF').toNumber('degC')).toBeCloseTo(celsius, 9);
});

test('a difference of 18 °F is one of 10 °C', () => {
  expect(convert({ value: exact(18), unit: unit('degF') }, unit('degC'), 'difference').value.equals(10)).toBe(true);
});

describe('the table', () => {
  /** Section 2 of the language. */
  const asked =
    'psi kPa bar inHg degC degF K rpm % psi/min L gal qt L/min gal/min kg/h lb/h lb/min N.m kgf.m lbf.ft lbf.in V A Hz kW dBA dB mm in m ft kg lb kt turn ratio s min h';

  test('has every unit of the language', () => {
    expect(asked.split(' ').filter((symbol) => findUnit(symbol)?.symbol !== symbol)).toEqual([]);
  });

  test('reads each spelling as one unit only', () => {
    const all = units.flatMap(({ symbol, spellings }) => [symbol, ...spellings]);
    expect(all.filter((spelling, index) => all.indexOf(spelling) !== index)).toEqual([]);
  });

  test.each([
    ['°C', 'degC'],
    ['psig', 'psi'],
    ['in-lb', 'lbf.in'],
    ['ft-lb', 'lbf.ft'],
    ['Nm', 'N.m'],
    ['N·m', 'N.m'],
    ['hr', 'h'],
    ['gpm', 'gal/min'],
    ['RPM', 'rpm'],
  ])('reads %s as %s', (spelling, symbol) => {
    expect(findUnit(spelling)?.symbol).toBe(symbol);
  });

  test('knows no unit that is none, and no unit by another one in capitals', () => {
    expect(['', 'furlong', 'MV', 'PA', 'constructor'].map(findUnit)).toEqual(Array(5).fill(undefined));
  });

  test('counterparts are units of the same dimension and of the other system', () => {
    for (const each of units) {
      for (const symbol of each.counterparts) {
        expect(`${symbol}: ${unit(symbol).dimension}`).toBe(`${symbol}: ${each.dimension}`);
        expect(unit(symbol).system).not.toBe(each.system);
      }
    }
  });

  test.each([
    ['psi', 'metric', 'kPa'],
    ['kPa', 'us', 'psi'],
    ['degF', 'metric', 'degC'],
    ['gal', 'metric', 'L'],
    ['lbf.in', 'metric', 'N.m'],
    ['psi', 'us', undefined],
    ['V', 'metric', undefined],
    ['rpm', 'us', undefined],
  ] as const)('of %s a %s reader wants %s', (symbol, system, wanted) => {
    expect(counterpart(unit(symbol), system)?.symbol).toBe(wanted);
  });
});
