import type { Item } from '../../../shared/card.ts';
import type { Move } from '../../flow/graph.ts';
import type { FlowIndex } from './flow-index.ts';

/**
 * A small automaton beside the card: a number that a question remembers on a path. The engine carries it on and knows nothing of what
 * it means.
 */
export interface Monitor {
  /** By which its value is read. */
  readonly name: string;
  /** Its value where the card begins; 0 where none is given. */
  readonly start?: number;
  /** The moves, as indices, at which it may step, beside those that the question watches and those of its items. */
  readonly stepsAt?: (index: FlowIndex) => Iterable<number>;
  /**
   * Its value right after what happens; undefined where it stays. It is not asked where a path only looks, goes round or is called.
   * Absent where only the question's `settle` changes it.
   */
  readonly step?: (happened: Happened) => number | undefined;
}

export interface Happened {
  readonly move: Move;
  /** A number for the move, which is that of the others that are one with it in the text; from 1. */
  readonly site: number;
  /** The states that an item may be in before and after, as masks; an item that the question does not follow is in none. */
  readonly before: (item: Item) => number;
  readonly after: (item: Item) => number;
}

export type MonitorName = Pick<Monitor, 'name'>;
