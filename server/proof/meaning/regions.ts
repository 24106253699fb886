import type { Bound, Condition, Gauge, Limit } from '../../../shared/card.ts';
import { termsIn } from '../../../shared/conditions.ts';
import {
  compareLows,
  type Interval,
  type IntervalEnd,
  intersection,
  isEmpty,
  turned,
} from '../../../shared/interval.ts';
import { mostCuts } from '../../flow/limits.ts';

/**
 * What may be known of a gauge: its scale cut where a bound begins or ends, into regions that no bound parts. A set of regions is
 * a bit mask, the lowest region first.
 */
export class GaugeRegions {
  private readonly masks = new Map<Interval, number | undefined>();

  private constructor(
    /** In rising order; the first region has none, each other begins at one. */
    private readonly cuts: readonly IntervalEnd[],
    private readonly regions: readonly Interval[],
    private readonly asked: readonly Interval[],
  ) {}

  static of(bounds: readonly Bound[]): GaugeRegions {
    const cuts: IntervalEnd[] = [];
    const asked = bounds.map(({ interval }) => interval);
    for (const interval of asked) {
      for (const cut of [interval.low, interval.high && turned(interval.high)]) {
        if (cut && cuts.length < mostCuts && !cuts.some((known) => compareLows(known, cut) === 0)) cuts.push(cut);
      }
    }
    cuts.sort(compareLows);
    const beginnings = [undefined, ...cuts];
    return new GaugeRegions(
      cuts,
      beginnings.map((low, region) => {
        const next = cuts[region];
        return { ...(low && { low }), ...(next && { high: turned(next) }) };
      }),
      asked,
    );
  }

  get all(): number {
    return 2 ** this.regions.length - 1;
  }

  /** How the ends of all bounds lie to each other: where that is the same, so is what any reading answers, whatever the numbers are. */
  get order(): string {
    const ends = this.asked.flatMap(({ low, high }) => [low, high && turned(high)]);
    const ranks = new Map<IntervalEnd, number>();
    let last: IntervalEnd | undefined;
    for (const end of ends.filter((one) => one !== undefined).sort(compareLows)) {
      const rank = last ? (ranks.get(last) as number) + Math.sign(compareLows(end, last)) : 0;
      ranks.set(end, rank);
      last = end;
    }
    return ends.map((end) => end && ranks.get(end)).join();
  }

  /** The regions that lie in the interval; undefined where a region lies partly in it. */
  maskOf(interval: Interval): number | undefined {
    if (!this.masks.has(interval)) {
      this.masks.set(interval, isEmpty(interval) ? 0 : this.maskBetween(interval));
    }
    return this.masks.get(interval);
  }

  private maskBetween({ low, high }: Interval): number | undefined {
    const first = low ? 1 + this.cutAt(low) : 0;
    const end = high ? 1 + this.cutAt(turned(high)) : this.regions.length;
    const isCut = (!low || first > 0) && (!high || end > 0);
    return isCut ? 2 ** end - 2 ** first : undefined;
  }

  /** -1 where there is none. */
  private cutAt(end: IntervalEnd): number {
    return this.cuts.findIndex((cut) => compareLows(cut, end) === 0);
  }

  /** The regions of which something lies in one of the stretches. */
  touching(stretches: readonly Interval[]): number {
    return this.regions.reduce((mask, region, index) => {
      const isTouched = stretches.some((stretch) => !isEmpty(intersection(region, stretch)));
      return isTouched ? mask | (1 << index) : mask;
    }, 0);
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
