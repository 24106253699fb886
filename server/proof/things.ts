import type { Condition, Gauge, Item, Supply } from '../../shared/card.ts';
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
  switch (condition.type) {
    case 'and':
    case 'or':
      for (const term of condition.terms) collect(term, things, supplies);
      return;
    case 'not':
      collect(condition.term, things, supplies);
      return;
    case 'quantified':
      collect(condition.written, things, supplies);
      return;
    case 'state':
      things.items.add(condition.item);
      return;
    case 'bound':
      collectGauge(condition.gauge, things.gauges);
      return;
    case 'limit':
      collect(writtenOut(condition.limit, condition.gauge, condition.place), things, supplies);
      return;
    case 'reaches':
      collectSupply(condition.supply, things, supplies);
      return;
    case 'open':
      return;
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
  switch (condition.type) {
    case 'and':
    case 'or':
      return condition.terms.flatMap(lastingTerms);
    case 'not':
      return lastingTerms(condition.term);
    case 'quantified':
      return lastingTerms(condition.written);
    case 'state':
      return condition.lasting ? [condition] : [];
    default:
      return [];
  }
}
