/** Limits across units: z3 says over the reals whether a written bound lets through what no named limit does, whether it is empty, and whether two are a slip. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Arith, Bool } from 'z3-solver';
import { codesOf } from './engine.ts';
import { ask, type Solver } from './solver.ts';

const CASES = 40;
const SEED = Number(process.env.ORACLE_SEED ?? 20261003);

/** Pascals of one unit, as exact fractions: an avoirdupois pound of 0.45359237 kg under 9.80665 m/s2 on a square inch; the others by definition. */
const PASCALS = { psi: '8896443230521/1290320000', kPa: '1000', bar: '100000' } as const;
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

class Pressures {
  constructor(private readonly z3: Solver) {}

  private pascals(number: number, unit: PressureUnit): Arith<'main'> {
    const [above = '0', below = '1'] = PASCALS[unit].split('/');
    const hundredths = Math.round(number * 100);
    return this.z3.Real.val(`${BigInt(hundredths) * BigInt(above)}/${BigInt(below) * 100n}`);
  }

  low(bound: Bound): Arith<'main'> {
    return this.pascals(bound.low, bound.unit);
  }

  high(bound: Bound): Arith<'main'> {
    return this.pascals(bound.high, bound.highUnit);
  }

  /** Does this pressure lie within the bound's lower side, and its upper side? A free side lets everything through. */
  overLow(bound: Bound, value: Arith<'main'>): Bool<'main'> {
    return bound.form === 'at most' ? this.z3.Bool.val(true) : value.ge(this.low(bound));
  }

  underHigh(bound: Bound, value: Arith<'main'>): Bool<'main'> {
    return bound.form === 'at least' ? this.z3.Bool.val(true) : value.le(this.high(bound));
  }

  private async exists(claim: (value: Arith<'main'>) => readonly Bool<'main'>[]): Promise<boolean> {
    const search = new this.z3.Solver();
    search.add(...claim(this.z3.Real.const('value')));
    return (await search.check()) === 'sat';
  }

  empty(bound: Bound): Promise<boolean> {
    return this.exists((value) => [this.overLow(bound, value), this.underHigh(bound, value)]).then((some) => !some);
  }

  /** Some pressure is let through by a side of the bound and kept out by that side of every named limit that has it. */
  async looser(named: readonly Bound[], asked: Bound): Promise<boolean> {
    const lows = named.filter(({ form }) => form !== 'at most');
    const highs = named.filter(({ form }) => form !== 'at least');
    const below =
      lows.length > 0 &&
      asked.form !== 'at most' &&
      (await this.exists((value) => [
        this.overLow(asked, value),
        ...lows.map((limit) => this.z3.Not(this.overLow(limit, value))),
      ]));
    const above =
      highs.length > 0 &&
      asked.form !== 'at least' &&
      (await this.exists((value) => [
        this.underHigh(asked, value),
        ...highs.map((limit) => this.z3.Not(this.underHigh(limit, value))),
      ]));
    return below || above;
  }

  /** The two figures differ, but by less than a twentieth of the larger. */
  slip(a: Arith<'main'>, b: Arith<'main'>): Promise<boolean> {
    const apart = (larger: Arith<'main'>, smaller: Arith<'main'>) =>
      this.z3.And(larger.gt(smaller), larger.sub(smaller).mul(20).lt(larger));
    return this.exists(() => [this.z3.Or(apart(a, b), apart(b, a))]);
  }
}

function askOf<Answer>(question: (pressures: Pressures) => Promise<Answer>): Promise<Answer> {
  return ask((z3) => question(new Pressures(z3)));
}

test('looser than every named limit', async () => {
  let loose = 0;
  for (const [named, asked] of fc.sample(fc.tuple(fc.array(bound, { minLength: 1, maxLength: 2 }), bound), {
    numRuns: CASES * 2,
    seed: SEED,
  })) {
    const empty = await askOf((pressures) => Promise.all([...named, asked].map((each) => pressures.empty(each))));
    if (empty.includes(true)) continue;
    const expected = await askOf((pressures) => pressures.looser(named, asked));
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
    const expected = await askOf((pressures) => pressures.empty(asked));
    if (expected) empties++;
    const text = card([], [asked]);
    expect(codesOf(text).includes('limit.empty'), text).toBe(expected);
  }
  expect(empties).toBeGreaterThan(3);
});

test('two copies that differ by a slip', async () => {
  let slips = 0;
  for (const [one, other] of fc.sample(copies, { numRuns: CASES * 2, seed: SEED + 2 })) {
    if (one.form === 'range') continue;
    const expected = await askOf((pressures) =>
      one.form === 'at least'
        ? pressures.slip(pressures.low(one), pressures.low(other))
        : pressures.slip(pressures.high(one), pressures.high(other)),
    );
    if (expected) slips++;
    const text = card([], [one, other]);
    expect(codesOf(text).includes('limit.conflict'), text).toBe(expected);
  }
  expect(slips).toBeGreaterThan(1);
});
