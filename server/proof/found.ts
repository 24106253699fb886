import { dequal } from 'dequal';
import type { Gauge, Item } from '../../shared/card.ts';
import { Collector } from './collector.ts';
import type { Noted } from './questions/sort.ts';

/** What one part of the questions has found on machines of one sort. */
export interface Found {
  /** The name of its list in the proof. */
  readonly list: string;
  readonly collector: Collector;
  readonly noted: Noted;
  /** The gauges of which it must know the readings. */
  readonly follows: Set<Gauge>;
  /** For each of its questions, by name, the items whose states at the start it hangs on. */
  readonly hanging: Map<string, ReadonlySet<Item>>;
  explored: number;
}

export function nothingFound(list: string, machines: string): Found {
  return {
    list,
    collector: new Collector(machines),
    noted: nothingNoted(),
    follows: new Set(),
    hanging: new Map(),
    explored: 0,
  };
}

export function nothingNoted(): Noted {
  return { sets: new Map(), atFinish: new Map(), reached: new Set(), relyingOnRest: new Set() };
}

/** Whether both say the same, however they came to it. */
export function areSame(one: Found, other: Found): boolean {
  return dequal(said(one), said(other));
}

function said({ collector, noted }: Found): unknown {
  return [collector.found, noted];
}
