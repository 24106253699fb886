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
  const supplies = new Set<Supply>();
  for (const condition of conditions) if (condition) collect(condition, things, supplies);
  return things;
}

function collect(condition: Condition, things: Things, supplies: Set<Supply>): void {
  for (const term of termsIn(condition)) {
    if (term.type === 'state') things.items.add(term.item);
    else if (term.type === 'bound') collectGauge(term.gauge, things.gauges);
    else if (term.type === 'limit') collect(writtenOut(term.limit, term.gauge, term.place), things, supplies);
    else if (term.type === 'reaches') collectSupply(term.supply, things, supplies);
  }
}

function collectGauge(gauge: Gauge, gauges: Set<Gauge>): void {
  gauges.add(gauge);
  if (!gauge.difference) return;
  collectGauge(gauge.difference.left, gauges);
  collectGauge(gauge.difference.right, gauges);
}

function collectSupply(supply: Supply, things: Things, supplies: Set<Supply>): void {
  if (supplies.has(supply)) return;
  supplies.add(supply);
  for (const { when } of [...supply.sources, ...supply.links]) if (when) collect(when, things, supplies);
}

export type StateTerm = Extract<Condition, { type: 'state' }>;

/** The terms that ask how long something has been so. */
export function lastingTerms(condition: Condition): StateTerm[] {
  return [...termsIn(condition)].filter((term) => term.type === 'state').filter(({ lasting }) => lasting);
}
