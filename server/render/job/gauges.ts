/** The gauges that a card reads, each once, with what the work copy needs to judge their readings and to carry them on. */
import type { Bound, Card, Condition, Gauge, Item, Limit } from '../../../shared/card.ts';
import { decimal, type Exact, larger, smaller } from '../../../shared/exact.ts';
import type { JobCondition, JobGauge, JobUnit, ReadingEnds } from '../../../shared/job.ts';
import { convert, roundedNearest, senseOf } from '../../../shared/quantity.ts';
import { counterpart, type Unit } from '../../../shared/units.ts';
import { endsReading } from '../../proof/meaning/transition-facts.ts';
import type { Context } from '../context.ts';
import { type Part, partsInside } from '../numbering.ts';

export interface GaugeTable {
  readonly items: readonly JobGauge[];
  /** The index in `items` of a gauge that the card reads. */
  readonly indexOf: (gauge: Gauge) => number;
  readonly condition: (condition: Condition) => JobCondition;
  /** Whose readings no longer count after this, by the rule of the proof. */
  readonly endedBy: (...happenings: readonly Happening[]) => { readonly ends?: number };
  /** The sets of gauges that end together, as `endedBy` names them. */
  readonly ends: readonly (readonly number[])[];
}

type Happening =
  | { readonly type: 'moment'; readonly cause: 'wait' | 'bring' | 'step'; readonly gauge?: Gauge }
  | { readonly type: 'set'; readonly item: Item; readonly state: number }
  | { readonly type: 'forget' };

export function gaugeTable(context: Context): GaugeTable {
  const gauges = gaugesRead(context.input.card);
  const indices = new Map(gauges.map((gauge, index) => [gauge, index]));
  const indexOf = (gauge: Gauge) => indices.get(gauge) ?? -1;
  const condition = (asked: Condition) => jobCondition(asked, indices);
  const ends: (readonly number[])[] = [];
  const endedBy = (...happenings: readonly Happening[]) => {
    const isEnded = (gauge: Gauge) => happenings.some((happening) => endsReading(gauge, happening));
    const ended = gauges.flatMap((gauge, index) => (isEnded(gauge) ? [index] : []));
    if (ended.length === 0) return {};
    const known = ends.findIndex((one) => one.join() === ended.join());
    return { ends: known === -1 ? ends.push(ended) - 1 : known };
  };
  return { items: gauges.map((gauge) => jobGauge(gauge, indexOf, context)), indexOf, condition, endedBy, ends };
}

/** The gauge's own unit and, where the card prints a second one, that. */
export function unitsOf(gauge: Gauge, { input }: Context): readonly Unit[] {
  const system = input.settings.secondUnits;
  const second = system === 'none' ? undefined : counterpart(gauge.unit, system);
  return second ? [gauge.unit, second] : [gauge.unit];
}

// ---------------------------------------------------------------- which

/** Those that the card reads or brings to a value, and what they are worked out from. */
export function gaugesRead(card: Card): readonly Gauge[] {
  const found = new Set<Gauge>();
  const add = (gauge: Gauge): void => {
    found.add(gauge);
    for (const { gauge: part } of partsOf(gauge)) found.add(part);
  };
  const visit = (part: Part): void => {
    for (const action of part.type === 'step' ? part.actions : [])
      if (action.type === 'read' || action.type === 'bring') add(action.gauge);
    for (const inner of partsInside(part)) visit(inner);
  };
  for (const part of card.body) visit(part);
  return [...found];
}

/** The gauges that somebody reads where one is worked out; none where it is read itself. */
function partsOf({ difference }: Gauge, sign: 1 | -1 = 1): readonly { readonly gauge: Gauge; readonly sign: 1 | -1 }[] {
  if (difference === undefined) return [];
  const own = (gauge: Gauge, its: 1 | -1) => (gauge.difference ? partsOf(gauge, its) : [{ gauge, sign: its }]);
  const right = difference.sign === '+' ? sign : sign === 1 ? -1 : 1;
  return [...own(difference.left, sign), ...own(difference.right, right)];
}

function jobGauge(gauge: Gauge, indexOf: GaugeTable['indexOf'], context: Context): JobGauge {
  const parts = partsOf(gauge).map(({ gauge: part, sign }) => ({ gauge: indexOf(part), sign }));
  return {
    label: gauge.label,
    units: unitsOf(gauge, context).map((unit) => jobUnit(gauge, unit)),
    ...(parts.length > 0 && { workedOut: parts }),
  };
}

function jobUnit(gauge: Gauge, unit: Unit): JobUnit {
  const { reads } = gauge;
  return {
    printed: unit.printed,
    factor: unit.factor.toFraction(),
    ...(unit.offset && senseOf(gauge) === 'value' && { offset: unit.offset.toFraction() }),
    ...(reads && {
      low: decimal(scaleEnd(reads.from, gauge, unit, smaller)),
      high: decimal(scaleEnd(reads.to, gauge, unit, larger)),
    }),
  };
}

/** In another unit the end is rounded to what a reader would say, where the scale is not the narrower for it. */
function scaleEnd(value: Exact, gauge: Gauge, unit: Unit, wider: (a: Exact, b: Exact) => Exact): Exact {
  const end = { value, unit: gauge.unit };
  const sense = senseOf(gauge);
  return wider(convert(end, unit, sense).value, roundedNearest(end, unit, sense).value);
}

// ---------------------------------------------------------------- conditions

function jobCondition(condition: Condition, indices: ReadonlyMap<Gauge, number>): JobCondition {
  const inner = (one: Condition) => jobCondition(one, indices);
  switch (condition.type) {
    case 'and':
    case 'or':
      return joined(condition.type, condition.terms.map(inner));
    case 'not': {
      const term = inner(condition.term);
      return term.type === 'open' ? term : { type: 'not', term };
    }
    case 'quantified':
      return inner(condition.written);
    case 'bound':
      return readingCondition(condition.gauge, condition.bound, indices);
    case 'limit':
      return limitCondition(condition.limit, indices);
    default:
      return { type: 'open' };
  }
}

function joined(type: 'and' | 'or', terms: readonly JobCondition[]): JobCondition {
  return terms.every((term) => term.type === 'open') ? { type: 'open' } : { type, terms };
}

function limitCondition({ gauge, bound, by }: Limit, indices: ReadonlyMap<Gauge, number>): JobCondition {
  if (bound) return readingCondition(gauge, bound, indices);
  const rows = (by?.rows ?? []).map((row) =>
    joined('and', [
      readingCondition(by?.gauge as Gauge, row.when, indices),
      readingCondition(gauge, row.bound, indices),
    ]),
  );
  return joined('or', rows);
}

function readingCondition(gauge: Gauge, bound: Bound, indices: ReadonlyMap<Gauge, number>): JobCondition {
  const index = indices.get(gauge);
  return index === undefined ? { type: 'open' } : { type: 'reading', gauge: index, ends: endsInBase(bound) };
}

function endsInBase({ interval: { low, high } }: Bound): ReadingEnds {
  return {
    ...(low && { low: low.value.toFraction(), ...(low.open && { lowOpen: true as const }) }),
    ...(high && { high: high.value.toFraction(), ...(high.open && { highOpen: true as const }) }),
  };
}
