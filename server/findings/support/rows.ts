/** Bounds on one gauge that stand in a row: branches one after the other, and the rows of a limit. */
import type { Bound, Card, Condition, Equipment, Gauge, If, Stage, Statement } from '../../../shared/card.ts';
import type { Exact } from '../../../shared/exact.ts';
import type { Interval } from '../../../shared/interval.ts';
import { fromBase, quantityWords, senseOf } from '../../../shared/quantity.ts';
import type { Place } from '../../../shared/text.ts';
import { rowsIn } from './card.ts';

export interface GaugeRow {
  readonly gauge: Gauge;
  readonly bounds: readonly Bound[];
  readonly place: Place;
}

/** Two or more branches in a row on one gauge with no last `else`: chained by `else if`, or one `if` after the other. */
export function* branchRows(card: Card): Iterable<GaugeRow> {
  for (const statements of rowsIn(card.body)) yield* rowsAmong(statements);
}

function* rowsAmong(statements: readonly (Stage | Statement)[]): Iterable<GaugeRow> {
  let row: { gauge: Gauge; bounds: Bound[]; place: Place } | undefined;
  for (const statement of statements) {
    const chain = statement.type === 'if' ? chainOf(statement) : undefined;
    if (chain && row?.gauge === chain.gauge) row.bounds.push(...chain.bounds);
    else {
      if (row) yield* ifSeveral(row);
      row = chain && { gauge: chain.gauge, bounds: [...chain.bounds], place: chain.place };
    }
  }
  if (row) yield* ifSeveral(row);
}

function* ifSeveral(row: GaugeRow): Iterable<GaugeRow> {
  if (row.bounds.length > 1) yield row;
}

/** The bounds of an `if` and its `else if`s, where all ask for one gauge and no plain `else` ends them. */
function chainOf(first: If): GaugeRow | undefined {
  const bounds: Bound[] = [];
  let gauge: Gauge | undefined;
  for (let link: If | undefined = first; link; link = nextIn(link)) {
    const asked = link.condition && boundAsked(link.condition);
    if (!asked || (gauge && gauge !== asked.gauge) || (link.otherwise && !link.chained)) return undefined;
    gauge = asked.gauge;
    bounds.push(asked.bound);
  }
  return gauge && { gauge, bounds, place: first.head };
}

function nextIn(link: If): If | undefined {
  const [next] = link.chained ? (link.otherwise ?? []) : [];
  return next?.type === 'if' ? next : undefined;
}

/** A condition that is one bound on one gauge; a limit that depends on another gauge is none. */
function boundAsked(condition: Condition): { readonly gauge: Gauge; readonly bound: Bound } | undefined {
  if (condition.type === 'bound') return condition;
  if (condition.type === 'limit' && condition.limit.bound)
    return { gauge: condition.gauge, bound: condition.limit.bound };
  return undefined;
}

/** The limits of a file that depend on another gauge, as rows on that gauge. */
export function* limitRows(file: string, equipment: Equipment): Iterable<GaugeRow> {
  for (const limit of equipment.gauges.flatMap((gauge) => gauge.limits)) {
    if (!limit.by || limit.place.file !== file) continue;
    yield { gauge: limit.by.gauge, bounds: limit.by.rows.map((row) => row.when), place: limit.place };
  }
}

/** `from 40 psi to 60 psi`, `above 40 psi and below 60 psi`: in the gauge's own unit. */
export function stretchWords({ low, high }: Interval, gauge: Gauge): string {
  const lowest = low && inUnit(low.value, gauge);
  const highest = high && inUnit(high.value, gauge);
  if (lowest && lowest === highest) return lowest;
  if (lowest && highest && !low.open && !high.open) return `from ${lowest} to ${highest}`;
  const from = low && `${low.open ? 'above' : 'at least'} ${lowest}`;
  const to = high && `${high.open ? 'below' : 'at most'} ${highest}`;
  return [from, to].filter((part) => part !== undefined).join(' and ') || 'anything';
}

function inUnit(base: Exact, gauge: Gauge): string {
  return quantityWords({ value: fromBase(base, gauge.unit, senseOf(gauge)), unit: gauge.unit });
}
