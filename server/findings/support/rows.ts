/** Bounds on one gauge that stand in a row: the branches of an `if … else if …`, and the rows of a limit. */
import type { Bound, Card, Condition, Equipment, Gauge, If } from '../../../shared/card.ts';
import type { Exact } from '../../../shared/exact.ts';
import type { Interval } from '../../../shared/interval.ts';
import { fromBase, quantityWords, senseOf, toBase } from '../../../shared/quantity.ts';
import type { Place } from '../../../shared/text.ts';
import { rowsIn } from './card.ts';

export interface GaugeRow {
  readonly gauge: Gauge;
  readonly bounds: readonly Bound[];
  readonly place: Place;
  /** The branches, behind which a last `else` would be written. */
  readonly branches?: If;
}

/** The branches of each `if … else if …` on one gauge with no last `else`, where they are several. */
export function* branchRows(card: Card): Iterable<GaugeRow> {
  for (const statement of [...rowsIn(card.body)].flat()) {
    const chain = statement.type === 'if' ? chainOf(statement) : undefined;
    if (chain && chain.bounds.length > 1) yield chain;
  }
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
  return gauge && { gauge, bounds, place: first.head, branches: first };
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

/** `from 40 psi to 60 psi`, `above 40 psi and below 60 psi`: as the bounds have it, else in the gauge's own unit. */
export function stretchWords({ low, high }: Interval, row: GaugeRow): string {
  const lowest = low && asWritten(low.value, row);
  const highest = high && asWritten(high.value, row);
  if (lowest && lowest === highest) return lowest;
  if (lowest && highest && !low.open && !high.open) return `from ${lowest} to ${highest}`;
  const from = low && `${low.open ? 'above' : 'at least'} ${lowest}`;
  const to = high && `${high.open ? 'below' : 'at most'} ${highest}`;
  return [from, to].filter((part) => part !== undefined).join(' and ') || 'anything';
}

function asWritten(base: Exact, { gauge, bounds }: GaugeRow): string {
  const ends = bounds.flatMap(({ low, high, exactly }) => [low, high, exactly]);
  const written = ends.find((end) => end && toBase(end, senseOf(gauge)).equals(base));
  if (written) return quantityWords(written);
  return quantityWords({ value: fromBase(base, gauge.unit, senseOf(gauge)), unit: gauge.unit });
}
