import type { Bound, Condition, Gauge, Limit } from '../../../shared/card.ts';
import { termsIn } from '../../../shared/conditions.ts';
import {
  compareLows,
  type Interval,
  type IntervalEnd,
  intersection,
  isEmpty,
  isWithin,
  turned,
} from '../../../shared/interval.ts';
import { mostCuts } from '../../flow/limits.ts';

/**
 * What may be known of a gauge: its scale cut where a bound begins or ends, into regions that no bound parts. A set of regions is
 * a bit mask, the lowest region first.
 */
export class GaugeRegions {
  private readonly masks = new Map<Interval, number | undefined>();

  private constructor(private readonly regions: readonly Interval[]) {}

  static of(bounds: readonly Bound[]): GaugeRegions {
    const cuts: IntervalEnd[] = [];
    for (const { interval } of bounds) {
      for (const cut of [interval.low, interval.high && turned(interval.high)]) {
        if (cut && cuts.length < mostCuts && !cuts.some((known) => compareLows(known, cut) === 0)) cuts.push(cut);
      }
    }
    cuts.sort(compareLows);
    const beginnings = [undefined, ...cuts];
    return new GaugeRegions(
      beginnings.map((low, region) => {
        const next = cuts[region];
        return { ...(low && { low }), ...(next && { high: turned(next) }) };
      }),
    );
  }

  get all(): number {
    return 2 ** this.regions.length - 1;
  }

  /** The regions that lie in the interval; undefined where a region lies partly in it. */
  maskOf(interval: Interval): number | undefined {
    if (!this.masks.has(interval)) {
      const mask = this.maskWhere((region) => isWithin(region, interval));
      this.masks.set(interval, mask === this.touching([interval]) ? mask : undefined);
    }
    return this.masks.get(interval);
  }

  /** The regions of which something lies in one of the stretches. */
  touching(stretches: readonly Interval[]): number {
    return this.maskWhere((region) => stretches.some((stretch) => !isEmpty(intersection(region, stretch))));
  }

  /** The stretches that a set of regions covers, in rising order. */
  stretchesOf(mask: number): Interval[] {
    const stretches: Interval[] = [];
    this.regions.forEach((region, index) => {
      if (!(mask & (1 << index))) return;
      const before = index > 0 && mask & (1 << (index - 1)) ? stretches.pop() : region;
      stretches.push({ ...(before?.low && { low: before.low }), ...(region.high && { high: region.high }) });
    });
    return stretches;
  }

  private maskWhere(fits: (region: Interval) => boolean): number {
    return this.regions.reduce((mask, region, index) => (fits(region) ? mask | (1 << index) : mask), 0);
  }
}

/** The bounds that a condition holds against gauges, limits written out. */
export function boundsIn(condition: Condition): { gauge: Gauge; bound: Bound }[] {
  return [...termsIn(condition)].flatMap((term) => {
    if (term.type === 'bound') return [{ gauge: term.gauge, bound: term.bound }];
    return term.type === 'limit' ? boundsIn(writtenOut(term.limit, term.gauge, term.place)) : [];
  });
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
