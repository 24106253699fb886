/** Exact conversion of quantities, inward rounding for a second unit, and how quantities and times are said. */
import type { Bound, Gauge } from './card.ts';
import { decimal, decimalPlaces, type Exact, exact, larger, zero } from './exact.ts';
import { getOrInsert } from './maps.ts';
import { counterpart, type Quantity, type Unit, type UnitSystem } from './units.ts';

/** A temperature of 18 °F is -7.8 °C, but a difference of 18 °F is one of 10 °C. Other measures make no difference between the two. */
export type Sense = 'value' | 'difference';

/** Worked out as `a - b` a gauge shows a difference, unless only `b` is one; as `a + b` only where both are. */
export function senseOf(gauge: Gauge): Sense {
  if (gauge.difference === undefined) return 'value';
  const [left, right] = [senseOf(gauge.difference.left), senseOf(gauge.difference.right)];
  if (gauge.difference.sign === '-') return left === 'value' && right === 'difference' ? 'value' : 'difference';
  return left === 'difference' && right === 'difference' ? 'difference' : 'value';
}

export function toBase(quantity: Quantity, sense: Sense = 'value'): Exact {
  if (sense === 'difference') return numberToBase(quantity.value, quantity.unit, sense);
  return getOrInsert(baseValues, quantity, () => numberToBase(quantity.value, quantity.unit));
}

/** Exact multiplication is dear, and the same limits and times are asked for again and again. */
const baseValues = new WeakMap<Quantity, Exact>();

/** As `toBase`, for a number that is known to be in this unit. */
export function numberToBase(value: Exact, unit: Unit, sense: Sense = 'value'): Exact {
  const scaled = unit.isBase ? value : value.mul(unit.factor);
  return unit.offset && sense === 'value' ? scaled.add(unit.offset) : scaled;
}

export function fromBase(base: Exact, unit: Unit, sense: Sense = 'value'): Exact {
  return (unit.offset && sense === 'value' ? base.sub(unit.offset) : base).div(unit.factor);
}

/** The same measure in another unit, exactly. Throws where the dimensions differ: compare them first. */
export function convert(quantity: Quantity, unit: Unit, sense: Sense = 'value'): Quantity {
  if (quantity.unit.dimension !== unit.dimension) {
    throw new Error(`${quantity.unit.symbol} cannot be converted to ${unit.symbol}`);
  }
  return { value: fromBase(toBase(quantity, sense), unit, sense), unit };
}

// ---------------------------------------------------------------- a second unit

/** The two ends of a bound; an absent one is free. */
export interface Ends {
  readonly low?: Quantity;
  readonly high?: Quantity;
}

/** More digits than this say nothing to the reader of a converted limit, and fewer are too coarse: 1 to 2 bar is 15 to 29 psi. */
const mostDigits = 4;
const leastDigits = 2;
/** How often a rounding step is made ten times finer before a narrow range is given up. */
const mostRefinements = 3;

/**
 * Both ends in another unit, to the digits a reader expects, the lower end rounded up and the upper end down, so that the converted
 * range is never the looser one (NIST SP 811, B.7.2). Undefined where even finer digits leave nothing between the ends.
 */
export function roundedInward(ends: Ends, unit: Unit, sense: Sense = 'value'): Ends | undefined {
  let places = readersPlaces(ends, unit, sense);
  for (let refinement = 0; refinement <= mostRefinements; refinement++, places++) {
    const step = exact(10).pow(-places);
    const low = ends.low && { value: convert(ends.low, unit, sense).value.div(step).ceil().mul(step), unit };
    const high = ends.high && { value: convert(ends.high, unit, sense).value.div(step).floor().mul(step), unit };
    if (!low || !high || low.value.compare(high.value) <= 0) return { ...(low && { low }), ...(high && { high }) };
  }
  return undefined;
}

/** A single value in another unit, to the digits a reader expects and to the nearest: for a reading, never for a limit. */
export function roundedNearest(quantity: Quantity, unit: Unit, sense: Sense = 'value'): Quantity {
  const step = exact(10).pow(-readersPlaces({ low: quantity }, unit, sense));
  return { value: convert(quantity, unit, sense).value.div(step).round().mul(step), unit };
}

/**
 * Decimal places (negative: tens, hundreds) that are no finer than the last place written, within the most and the least digits.
 * A place that is finer than the written one by less than a twentieth counts as the same: 0.1 kgf/cm2 is 9.8 kPa, and is read as 10 kPa.
 */
function readersPlaces(ends: Ends, unit: Unit, sense: Sense): number {
  const given = [ends.low, ends.high].filter((end) => end !== undefined);
  const lastPlace = Math.max(...given.map((end) => end.places ?? decimalPlaces(end.value) ?? 0));
  const ratio = (given[0] as Quantity).unit.factor.div(unit.factor);
  const coarsest = ratio.mul(exact(10).pow(-lastPlace)).mul(exact(21, 20));
  const largest = given.map((end) => convert(end, unit, sense).value.abs()).reduce(larger, zero);
  const places = Math.min(-magnitude(coarsest), mostDigits - 1 - magnitude(largest));
  return Math.max(places, leastDigits - 1 - magnitude(largest));
}

/** The exponent of the largest power of ten that is not larger than the value; 0 for zero. */
function magnitude(value: Exact): number {
  if (value.equals(0)) return 0;
  const exponent = Math.floor(Math.log10(value.valueOf()));
  // Just below a power of ten the logarithm is rounded up to it.
  return exact(10).pow(exponent).compare(value) > 0 ? exponent - 1 : exponent;
}

// ---------------------------------------------------------------- how it is said

/** Writes a unit: as a reader sees it, or as the language has it. */
export type UnitForm = 'printed' | 'symbol';

export function quantityWords({ value, unit, places }: Quantity, form: UnitForm = 'printed'): string {
  return `${decimal(value, places)} ${unit[form]}`;
}

/** A bound as it was written: `at least 24 V`, `40 to 60 psi`, `exactly 5 mm ± 0.1 mm`. */
export function boundWords(bound: Bound, form: UnitForm = 'printed'): string {
  if (bound.form !== 'exactly') return endsWords(bound, bound.form, form);
  const tolerance = bound.tolerance && ` ${form === 'printed' ? '±' : '+/-'} ${quantityWords(bound.tolerance, form)}`;
  return `exactly ${bound.exactly ? quantityWords(bound.exactly, form) : ''}${tolerance ?? ''}`;
}

/** A bound in the unit that its gauge shows, exactly: for holding one against another, whatever units they were written in. */
export function boundInUnit(bound: Bound, gauge: Gauge): Bound {
  const { low, high, form } = bound;
  if (form === 'exactly') return bound;
  const inUnit = (end: Quantity) => convert(end, gauge.unit, senseOf(gauge));
  return { ...bound, ...(low && { low: inUnit(low) }), ...(high && { high: inUnit(high) }) };
}

/**
 * The bound in the customary unit of the other system, rounded inward; of an exact value without a tolerance the nearest, said to be
 * `about` that. Undefined where the unit is already the reader's, or nothing is left between the ends.
 */
export function secondBoundWords(bound: Bound, system: UnitSystem, sense: Sense = 'value'): string | undefined {
  const from = (bound.low ?? bound.high)?.unit;
  const unit = from && counterpart(from, system);
  if (unit === undefined) return undefined;
  if (bound.exactly && !bound.tolerance) return `about ${quantityWords(roundedNearest(bound.exactly, unit, sense))}`;
  const ends = roundedInward(bound, unit, sense);
  return ends && endsWords(ends, bound.form === 'exactly' ? 'range' : bound.form, 'printed');
}

function endsWords({ low, high }: Ends, form: Exclude<Bound['form'], 'exactly'>, unitForm: UnitForm): string {
  if (form !== 'range') return `${form} ${quantityWords((low ?? high) as Quantity, unitForm)}`;
  if (low === undefined || high === undefined) return '';
  const from = low.unit === high.unit ? decimal(low.value, low.places) : quantityWords(low, unitForm);
  return `${from} to ${quantityWords(high, unitForm)}`;
}

/** Seconds in words that the language reads too: `4 min 30 s`, `2 h`, `0.5 s`. */
export function durationWords(seconds: Exact): string {
  const hours = seconds.div(3600).floor();
  const minutes = seconds.sub(hours.mul(3600)).div(60).floor();
  const rest = seconds.sub(hours.mul(3600)).sub(minutes.mul(60));
  const parts = [
    [hours, 'h'],
    [minutes, 'min'],
    [rest, 's'],
  ] as const;
  const said = parts.filter(([amount]) => !amount.equals(0)).map(([amount, unit]) => `${decimal(amount)} ${unit}`);
  return said.length === 0 ? '0 s' : said.join(' ');
}
