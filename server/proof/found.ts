import { dequal } from 'dequal';
import type { Gauge, Item, Step } from '../../shared/card.ts';
import { Collector } from './collector.ts';
import type { SetRecords } from './questions/put-back.ts';

/** What one part of the questions has found on machines of one sort. */
export interface Found extends SetRecords {
  readonly collector: Collector;
  /** The gauges of which it must know the readings. */
  readonly follows: Set<Gauge>;
  /** For each safety question the items whose states at the start it hangs on. */
  readonly hanging: ReadonlySet<Item>[];
  readonly relyingOnRest: Set<Item>;
  readonly reached: Set<Step>;
  explored: number;
}

export function nothingFound(machines = ''): Found {
  return {
    collector: new Collector(machines),
    follows: new Set(),
    hanging: [],
    relyingOnRest: new Set(),
    reached: new Set(),
    sets: new Map(),
    atFinish: new Map(),
    explored: 0,
  };
}

/** Whether both say the same, however they came to it. */
export function areSame(one: Found, other: Found): boolean {
  return dequal(said(one), said(other));
}

function said({ collector, relyingOnRest, reached, sets, atFinish }: Found): unknown {
  return [collector, relyingOnRest, reached, sets, atFinish];
}
