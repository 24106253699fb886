/** Bounds held against the gauge that they are about: its scale, its marks and its named limits. */
import type { Bound, Card, Condition, Equipment, Gauge, Limit } from '../../../shared/card.ts';
import { conditionsAskedBy, termsIn } from '../../../shared/conditions.ts';
import { type Exact, exact, larger } from '../../../shared/exact.ts';
import {
  compareHighs,
  compareLows,
  containsValue,
  type Interval,
  type IntervalEnd,
  interval,
  isEmpty,
} from '../../../shared/interval.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { convert, numberToBase, type Sense, senseOf } from '../../../shared/quantity.ts';
import type { Quantity } from '../../../shared/units.ts';
import { statementsIn } from './card.ts';

/** A bound on a gauge. */
interface OfGauge {
  readonly gauge: Gauge;
  readonly bound: Bound;
}

export interface MeasuredBound extends OfGauge {
  /** The first thing that is wrong with it; what else is wrong follows from the same slip. */
  readonly fault: Fault | undefined;
}

export type Fault = 'empty' | 'off-scale' | 'looser' | 'between-marks';

/** The limits of the gauge are held against what is written out alone. */
function measured(of: OfGauge, writtenOut: boolean): MeasuredBound {
  return { gauge: of.gauge, bound: of.bound, fault: faultOf(of, writtenOut) };
}

function faultOf(of: OfGauge, writtenOut: boolean): Fault | undefined {
  if (isEmpty(of.bound.interval)) return 'empty';
  if (isOffScale(of)) return 'off-scale';
  if (writtenOut && looserEnds(of).length > 0) return 'looser';
  return isBetweenMarks(of) ? 'between-marks' : undefined;
}

// ---------------------------------------------------------------- scale and marks

/** What a gauge can show, in the base unit. */
export function scaleOf(gauge: Gauge): Interval | undefined {
  const { reads, unit } = gauge;
  const sense = senseOf(gauge);
  return reads && interval(numberToBase(reads.from, unit, sense), numberToBase(reads.to, unit, sense));
}

function isOffScale({ gauge, bound }: OfGauge): boolean {
  const scale = scaleOf(gauge);
  const ends = [bound.interval.low, bound.interval.high];
  return scale !== undefined && ends.some((end) => end && !containsValue(scale, end.value));
}

/** Only what is said in the gauge's own unit can be meant to lie on a mark. */
function isBetweenMarks({ gauge, bound }: OfGauge): boolean {
  const { reads, unit } = gauge;
  const marks = reads?.by;
  if (!marks) return false;
  const written = bound.exactly ? [bound.exactly] : [bound.low, bound.high];
  return written.some((end) => end?.unit === unit && !isWhole(end.value.sub(reads.from).div(marks)));
}

function isWhole(value: Exact): boolean {
  return value.equals(value.floor());
}

// ---------------------------------------------------------------- named limits

export interface LooserEnd {
  readonly side: 'low' | 'high';
  /** The limit that goes furthest on this side. */
  readonly widest: Limit;
  readonly end: Quantity;
}

/** The sides on which a bound lets through what no named limit of the gauge does. */
export function looserEnds({ gauge, bound }: OfGauge): LooserEnd[] {
  const { low, high } = bound.interval;
  const ends: LooserEnd[] = [];
  const lowest = widest(gauge, 'low');
  if (low && lowest && compareLows(low, lowest.edge) < 0) ends.push({ side: 'low', ...lowest });
  const highest = widest(gauge, 'high');
  if (high && highest && compareHighs(high, highest.edge) > 0) ends.push({ side: 'high', ...highest });
  return ends;
}

interface Widest {
  readonly widest: Limit;
  readonly end: Quantity;
  readonly edge: IntervalEnd;
}

function widest(gauge: Gauge, side: 'low' | 'high'): Widest | undefined {
  let found: Widest | undefined;
  for (const limit of gauge.limits) {
    for (const bound of boundsOf(limit)) {
      const edge = bound.interval[side];
      const end = bound[side];
      if (edge && end && (!found || isWider(edge, found.edge, side))) found = { widest: limit, end, edge };
    }
  }
  return found;
}

function isWider(edge: IntervalEnd, than: IntervalEnd, side: 'low' | 'high'): boolean {
  return side === 'low' ? compareLows(edge, than) < 0 : compareHighs(edge, than) > 0;
}

export function boundsOf(limit: Limit): readonly Bound[] {
  return limit.bound ? [limit.bound] : (limit.by?.rows.map((row) => row.bound) ?? []);
}

// ---------------------------------------------------------------- where bounds stand

/** The bounds of the limits that a file declares, and those that its rules, hazards, items and supplies ask for. */
export function* declaredBounds(
  { gauges, rules, hazards, supplies, items }: Equipment,
  file: string,
): Iterable<MeasuredBound> {
  for (const gauge of gauges)
    for (const limit of gauge.limits) if (limit.place.file === file) yield* limitBounds(limit);
  const conditions = [
    ...rules.flatMap((rule) => [rule.condition, rule.require]),
    ...hazards.flatMap((hazard) => [hazard.condition, hazard.protect]),
    ...supplies.flatMap((supply) => [...supply.sources, ...supply.links].map((part) => part.when)),
    ...items.flatMap((item) => item.may.map((part) => part.when)),
  ];
  for (const condition of conditions) if (condition?.place.file === file) yield* boundsIn(condition, false);
}

function* limitBounds(limit: Limit): Iterable<MeasuredBound> {
  for (const bound of boundsOf(limit)) yield measured({ gauge: limit.gauge, bound }, false);
  for (const row of limit.by?.rows ?? []) {
    yield measured({ gauge: (limit.by as NonNullable<Limit['by']>).gauge, bound: row.when }, false);
  }
}

const written = new WeakMap<Card['body'], readonly MeasuredBound[]>();

/** Worked out once for a card: several findings ask for it, and exact numbers are dear. */
export function writtenBounds(card: Card): readonly MeasuredBound[] {
  return getOrInsert(written, card.body, () => [...boundsWrittenIn(card)]);
}

/** The bounds that the steps of a card ask for. Those of an `if` only say where to go on: of them only one that nothing can meet is a slip. */
function* boundsWrittenIn(card: Card): Iterable<MeasuredBound> {
  for (const statement of statementsIn(card.body)) {
    const conditions = (statement.type === 'step' ? statement.actions : [statement]).flatMap(conditionsAskedBy);
    for (const bound of conditions.flatMap((condition) => [...boundsIn(condition, true)]))
      if (statement.type !== 'if' || bound.fault === 'empty') yield bound;
  }
}

export function* boundsIn(condition: Condition, writtenOut: boolean): Iterable<MeasuredBound> {
  for (const term of termsIn(condition, true)) {
    if (term.type === 'bound') yield writtenOut ? measuredOnce(term) : measured(term, false);
  }
}

/** By what was written out, which is another object where a number of it has become another. */
const known = new WeakMap<Interval, MeasuredBound>();

function measuredOnce(of: OfGauge): MeasuredBound {
  const before = known.get(of.bound.interval);
  if (before?.bound === of.bound && before.gauge === of.gauge) return before;
  const made = measured(of, true);
  known.set(of.bound.interval, made);
  return made;
}

/** A twentieth of the larger: closer than this, two figures were meant to be one. */
export function nearlyEqual(a: Exact, b: Exact): boolean {
  const twentieth = larger(a.abs(), b.abs()).div(20);
  return !a.equals(b) && a.sub(b).abs().compare(twentieth) < 0;
}

/** One quantity is another one converted, and rounded to the nearest or to either side in its last digit. */
export function isRoundedFrom(written: Quantity, precise: Quantity, sense: Sense): boolean {
  const difference = written.value.sub(convert(precise, written.unit, sense).value).abs();
  return difference.compare(lastDigit(written)) < 0;
}

/** What one more in the last digit is worth: 0.1 for `275.8 kPa`. */
function lastDigit({ value, places = 0 }: Quantity): Exact {
  let digit = exact(1);
  for (let place = 0; place < places || !isWhole(value.div(digit)); place++) digit = digit.div(10);
  return digit;
}
