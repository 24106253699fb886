/** Limits across units: z3 says over the reals whether a written bound lets through what no named limit does, whether it is empty, and whether two are a slip. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { codesOf } from './engine.ts';
import { all, any, isSatisfiable } from './solver.ts';

const CASES = 40;
const SEED = Number(process.env.ORACLE_SEED ?? 20261003);

/** Pascals of one unit, as exact fractions: an avoirdupois pound of 0.45359237 kg under 9.80665 m/s2 on a square inch; the others by definition. */
const PASCALS = { psi: '(/ 8896443230521.0 1290320000.0)', kPa: '1000.0', bar: '100000.0' } as const;
type PressureUnit = keyof typeof PASCALS;

interface Bound {
  readonly form: 'at least' | 'at most' | 'range';
  readonly low: number;
  readonly high: number;
  readonly unit: PressureUnit;
  readonly highUnit: PressureUnit;
}

const IN_PSI = { psi: 1, kPa: 6.894757293168, bar: 0.06894757293168 } as const;

/** Numbers near a few pressures, whatever the unit, so that bounds in different units come close to each other. */
const pressure = fc.tuple(fc.constantFrom(20, 30, 40, 50), fc.integer({ min: -3, max: 3 }));

function written([psi, nudge]: readonly [number, number], unit: PressureUnit): number {
  const digit = unit === 'bar' ? 0.01 : 1;
  return Number((Math.round((psi * IN_PSI[unit]) / digit) * digit + nudge * digit).toFixed(2));
}

const bound: fc.Arbitrary<Bound> = fc
  .record({
    form: fc.constantFrom('at least' as const, 'at most' as const, 'range' as const),
    low: pressure,
    high: pressure,
    unit: fc.constantFrom<PressureUnit>('psi', 'kPa', 'bar'),
    highUnit: fc.constantFrom<PressureUnit>('psi', 'kPa', 'bar'),
  })
  .map(({ form, low, high, unit, highUnit }) => ({
    form,
    unit,
    highUnit,
    low: written(low, unit),
    high: written(high, highUnit),
  }));

/** Two bounds of the same sort. */
const copies = fc.tuple(bound, bound).map(([one, other]) => [one, { ...other, form: one.form }] as const);

function print({ form, low, high, unit, highUnit }: Bound): string {
  return form === 'range'
    ? `${low} ${unit} to ${high} ${highUnit}`
    : form === 'at least'
      ? `at least ${low} ${unit}`
      : `at most ${high} ${highUnit}`;
}

function card(named: readonly Bound[], asked: readonly Bound[]): string {
  const limits = named.map((limit, index) => `limit named-${index} ${print(limit)}`).join('\n  ');
  return `gauge air "air pressure" in psi {\n  ${limits}\n}\ncard trial "A trial" {\n${asked.map((each) => `  step { read air ${print(each)} }`).join('\n')}\n}`;
}

/** A pressure in pascals, as a term of the solver. */
function pascals(number: number, unit: PressureUnit): string {
  return `(* ${number.toFixed(2)} ${PASCALS[unit]})`;
}

const lowOf = (bound: Bound) => pascals(bound.low, bound.unit);
const highOf = (bound: Bound) => pascals(bound.high, bound.highUnit);

/** Does the pressure lie within the bound's lower side, and its upper side? A free side lets everything through. */
const overLow = (bound: Bound) => (bound.form === 'at most' ? 'true' : `(>= pressure ${lowOf(bound)})`);
const underHigh = (bound: Bound) => (bound.form === 'at least' ? 'true' : `(<= pressure ${highOf(bound)})`);

const within = (bound: Bound) => all([overLow(bound), underHigh(bound)]);

/** Some pressure is let through by a side of the bound and kept out by that side of every named limit that has it. */
function looser(named: readonly Bound[], asked: Bound): string {
  const past = (free: Bound['form'], side: (bound: Bound) => string) => {
    const limits = named.filter(({ form }) => form !== free);
    if (limits.length === 0 || asked.form === free) return 'false';
    return all([side(asked), ...limits.map((limit) => `(not ${side(limit)})`)]);
  };
  return any([past('at most', overLow), past('at least', underHigh)]);
}

interface Figure {
  readonly number: number;
  readonly unit: PressureUnit;
}

/** The two figures differ, but by less than a twentieth of the larger, and neither is the other in another unit, rounded to its last digit. */
function slip(one: Figure, other: Figure): string {
  const [a, b] = [pascals(one.number, one.unit), pascals(other.number, other.unit)];
  const apart = `(ite (> ${a} ${b}) (- ${a} ${b}) (- ${b} ${a}))`;
  const larger = `(ite (> ${a} ${b}) ${a} ${b})`;
  const isRounded = ({ number, unit }: Figure) => `(< ${apart} ${pascals(lastDigit(number), unit)})`;
  const rounded = one.unit === other.unit ? 'false' : any([isRounded(one), isRounded(other)]);
  return all([`(> ${apart} 0.0)`, `(< (* 20.0 ${apart}) ${larger})`, `(not ${rounded})`]);
}

/** What one more in the last digit is worth: 0.1 for 3.5. */
function lastDigit(number: number): number {
  const [, decimals = ''] = String(number).split('.');
  return 10 ** -decimals.length;
}

const canBe = (claim: string) => isSatisfiable(['(declare-const pressure Real)'], claim);

async function isOneEmpty(bounds: readonly Bound[]): Promise<boolean> {
  for (const each of bounds) if (!(await canBe(within(each)))) return true;
  return false;
}

test('looser than every named limit', async () => {
  let loose = 0;
  for (const [named, asked] of fc.sample(fc.tuple(fc.array(bound, { minLength: 1, maxLength: 2 }), bound), {
    numRuns: CASES * 2,
    seed: SEED,
  })) {
    if (await isOneEmpty([...named, asked])) continue;
    const expected = await canBe(looser(named, asked));
    if (expected) loose++;
    const text = card(named, [asked]);
    expect(codesOf(text).includes('limit.looser'), text).toBe(expected);
  }
  expect(loose).toBeGreaterThan(CASES / 4);
});

test('empty', async () => {
  let empties = 0;
  for (const asked of fc.sample(bound, { numRuns: CASES * 2, seed: SEED + 1 })) {
    if (asked.form !== 'range') continue;
    const met = await canBe(within(asked));
    if (!met) empties++;
    const text = card([], [asked]);
    expect(codesOf(text).includes('limit.empty'), text).toBe(!met);
  }
  expect(empties).toBeGreaterThan(3);
});

test('two copies that differ by a slip', async () => {
  let slips = 0;
  for (const [one, other] of fc.sample(copies, { numRuns: CASES * 2, seed: SEED + 2 })) {
    if (one.form === 'range') continue;
    const figure = ({ form, low, high, unit, highUnit }: Bound): Figure =>
      form === 'at least' ? { number: low, unit } : { number: high, unit: highUnit };
    const expected = await canBe(slip(figure(one), figure(other)));
    if (expected) slips++;
    const text = card([], [one, other]);
    expect(codesOf(text).includes('limit.conflict'), text).toBe(expected);
  }
  expect(slips).toBeGreaterThan(1);
});
