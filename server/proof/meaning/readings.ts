/** What a path knows of a gauge: what was read of it, and what follows for a gauge that is worked out from two others. */
import type { Gauge } from '../../../shared/card.ts';
import { differenceOf, everything, type Interval, intersection, isEmpty, sumOf } from '../../../shared/interval.ts';
import type { GaugeRegions } from './regions.ts';
import type { State } from './state.ts';

/** Where a state has what was read of a gauge. */
export interface Gauges {
  readonly ofGauge: (gauge: Gauge) => number | undefined;
  readonly regions: (gauge: Gauge) => GaugeRegions;
}

/** The regions in which a gauge may be. `variable`: where the state has it. */
export function possibleRegions(gauge: Gauge, variable: number, state: State, gauges: Gauges): number {
  const read = state[variable] as number;
  if (!gauge.difference) return read;
  return read & gauges.regions(gauge).touching(stretchesOf(gauge, state, gauges));
}

/** The stretches in which a gauge may be. Where what was read of it and of the two others cannot be true together, what was read of it counts. */
function stretchesOf(gauge: Gauge, state: State, gauges: Gauges): Interval[] {
  const variable = gauges.ofGauge(gauge);
  const read = variable === undefined ? [everything] : gauges.regions(gauge).stretchesOf(state[variable] as number);
  if (!gauge.difference) return read;
  const { left, sign, right } = gauge.difference;
  const combine = sign === '-' ? differenceOf : sumOf;
  const rights = stretchesOf(right, state, gauges);
  const workedOut = stretchesOf(left, state, gauges).flatMap((one) => rights.map((other) => combine(one, other)));
  const both = read
    .flatMap((stretch) => workedOut.map((other) => intersection(stretch, other)))
    .filter((stretch) => !isEmpty(stretch));
  return both.length > 0 ? both : read;
}
