import type { Condition, Gauge, Item, Supply } from '../../../shared/card.ts';
import { termsIn } from '../../../shared/conditions.ts';
import { writtenOut } from './regions.ts';

/** The items and gauges that a condition looks at, with those behind supplies and those from which a gauge is worked out. */
export interface Things {
  readonly items: Set<Item>;
  readonly gauges: Set<Gauge>;
}

export function thingsIn(...conditions: (Condition | undefined)[]): Things {
  const things: Things = { items: new Set(), gauges: new Set() };
  for (const condition of conditions) {
    for (const term of condition ? termsBehind(condition) : []) {
      if (term.type === 'state') things.items.add(term.item);
      else if (term.type === 'bound') collectGauge(term.gauge, things.gauges);
    }
  }
  return things;
}

/** Whether there is something that both look at. */
export function share(some: Things, others: Things): boolean {
  return (
    [...some.items].some((item) => others.items.has(item)) || [...some.gauges].some((gauge) => others.gauges.has(gauge))
  );
}

/** Its terms, with those of the limits and of the supplies that it names. */
function* termsBehind(condition: Condition, supplies = new Set<Supply>()): Iterable<Condition> {
  for (const term of termsIn(condition)) {
    if (term.type === 'limit') yield* termsBehind(writtenOut(term.limit, term.gauge, term.place), supplies);
    else if (term.type !== 'reaches') yield term;
    else if (!supplies.has(term.supply)) {
      supplies.add(term.supply);
      for (const { when } of [...term.supply.sources, ...term.supply.links])
        if (when) yield* termsBehind(when, supplies);
    }
  }
}

function collectGauge(gauge: Gauge, gauges: Set<Gauge>): void {
  gauges.add(gauge);
  if (!gauge.difference) return;
  collectGauge(gauge.difference.left, gauges);
  collectGauge(gauge.difference.right, gauges);
}

export type StateTerm = Extract<Condition, { type: 'state' }>;

/** The terms that ask how long something has been so. */
export function lastingTerms(condition: Condition): StateTerm[] {
  return [...termsIn(condition)].filter((term) => term.type === 'state').filter(({ lasting }) => lasting);
}

/** Whether a condition, or a supply that it names, asks how long something has been so. */
export function asksTime(...conditions: (Condition | undefined)[]): boolean {
  return conditions.some(
    (condition) =>
      condition !== undefined && [...termsBehind(condition)].some((term) => term.type === 'state' && term.lasting),
  );
}
