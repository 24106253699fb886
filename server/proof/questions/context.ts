import type { Card, Gauge, Item } from '../../../shared/card.ts';
import type { Flow } from '../../flow/graph.ts';
import type { Collector } from '../collector.ts';
import type { Ending, PathEvent, Unmet } from '../facts.ts';
import type { Look } from '../slicing/question.ts';

/** What the questions of one configuration share. */
export interface Context {
  readonly card: Card;
  readonly flow: Flow;
  readonly collector: Collector;
  /** The states that an item may have at the start, as a mask. */
  readonly start: (item: Item) => number;
  /** What has ended the last reading of a gauge on the way; undefined where it was not read. */
  readonly lostBy: (look: Look, gauge: Gauge) => Ending | undefined;
  readonly path: (look: Look, about: readonly Item[], unmet: readonly Unmet[]) => readonly PathEvent[];
}
