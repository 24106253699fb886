import type { Bound, Condition, Gauge, Limit } from '../../shared/card.ts';
import type { Exact } from '../../shared/exact.ts';
import type { Interval } from '../../shared/interval.ts';

/** Masks have 31 bits; a gauge with more bounds than fit is known less finely. */
const mostCuts = 15;

/**
 * What may be known of a gauge: its scale cut at every value that a bound names. Region 2i+1 is the i-th value itself,
 * the even regions lie between. A set of regions is a bit mask.
 */
export class GaugeRegions {
  private constructor(private readonly cuts: readonly Exact[]) {}

  static of(bounds: readonly Bound[]): GaugeRegions {
    const cuts: Exact[] = [];
    for (const { interval } of bounds) {
      for (const end of [interval.low, interval.high]) {
        if (end && !cuts.some((cut) => cut.equals(end.value))) cuts.push(end.value);
      }
    }
    return new GaugeRegions(cuts.sort((a, b) => a.compare(b)).slice(0, mostCuts));
  }

  get all(): number {
    return 2 ** (2 * this.cuts.length + 1) - 1;
  }

  /** The regions that lie in the interval; undefined where a region lies partly in it. */
  maskOf(interval: Interval): number | undefined {
    let mask = 0;
    for (let region = 0; region <= 2 * this.cuts.length; region++) {
      if (this.isAbove(region, interval) && this.isBelow(region, interval)) mask |= 1 << region;
    }
    const named = [interval.low, interval.high].every((end) => !end || this.cuts.some((cut) => cut.equals(end.value)));
    return named ? mask : undefined;
  }

  private isAbove(region: number, { low }: Interval): boolean {
    if (!low) return true;
    const cut = this.cuts[region >> 1] as Exact | undefined;
    if (region % 2 === 1)
      return low.open ? (cut as Exact).compare(low.value) > 0 : (cut as Exact).compare(low.value) >= 0;
    const below = this.cuts[(region >> 1) - 1];
    return below !== undefined && below.compare(low.value) >= 0;
  }

  private isBelow(region: number, { high }: Interval): boolean {
    if (!high) return true;
    const cut = this.cuts[region >> 1];
    if (region % 2 === 1)
      return high.open ? (cut as Exact).compare(high.value) < 0 : (cut as Exact).compare(high.value) <= 0;
    return cut !== undefined && cut.compare(high.value) <= 0;
  }
}

/** The bounds that a condition holds against gauges, limits written out. */
export function boundsIn(condition: Condition): { gauge: Gauge; bound: Bound }[] {
  switch (condition.type) {
    case 'and':
    case 'or':
      return condition.terms.flatMap(boundsIn);
    case 'not':
      return boundsIn(condition.term);
    case 'quantified':
      return boundsIn(condition.written);
    case 'bound':
      return [{ gauge: condition.gauge, bound: condition.bound }];
    case 'limit':
      return boundsIn(writtenOut(condition.limit, condition.gauge, condition.place));
    default:
      return [];
  }
}

/** A named limit as a condition: its bound, or one of its rows with what the other gauge must then show. */
export function writtenOut(limit: Limit, gauge: Gauge, place: Condition['place']): Condition {
  if (limit.by) {
    const { gauge: other, rows } = limit.by;
    return {
      type: 'or',
      place,
      terms: rows.map((row) => ({
        type: 'and',
        place,
        terms: [
          { type: 'bound', gauge: other, bound: row.when, place },
          { type: 'bound', gauge, bound: row.bound, place },
        ],
      })),
    };
  }
  return limit.bound ? { type: 'bound', gauge, bound: limit.bound, place } : { type: 'open', place };
}
