/** Something that goes wrong, and the path that shows it, as plain data: codes, levels and sentences are chosen by those who read it. */

import type { Gauge, Item, Seconds, Supply, TimeSpan, Words } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import type { Call } from '../flow/calls.ts';
import type { Happening, Reason } from '../flow/graph.ts';
import type { Ticks } from '../flow/time.ts';

/**
 * Something that goes wrong on at least one path. All facts are plain data (objects, lists and sets) with the places of moves and of what the card says:
 * such places move along with their text, and can be said of the next version.
 */
export interface Break {
  /** Where a writer would mend it. */
  readonly place: Place;
  /** The shortest path that shows it. */
  readonly path: readonly PathEvent[];
  /** The states were blended on this path: it may be a false alarm. */
  readonly blended: boolean;
  /** The sorts of machine on which it happens, each as it is named (`unit 3 to 4`); absent where it happens on all. */
  readonly configurations?: readonly string[];
  /** It stands in what the card does several times, and is so only where it is done at these places. */
  readonly calls?: readonly Call[];
}

/** One place on a path, and what happens there. */
export interface PathEvent {
  readonly place: Place;
  readonly happens: Occurrence;
  /** Where the card does the procedure that it stands in, if it does that several times. */
  readonly call?: Call;
  /** The time since the event before, where it is told, and which end of it counts. */
  readonly after?: TimeSpan & { readonly counts: keyof Ticks };
}

export type Occurrence =
  | Reason
  | ({ readonly type: 'set' } & ItemState)
  /** A run is over. */
  | { readonly type: 'goes-back'; readonly item: Item }
  | ({ readonly type: 'may-move' } & ItemState)
  | { readonly type: 'reading-ends'; readonly gauge: Gauge }
  /** Nothing on the path has settled it, and it is `isSure` or may be in a wrong state. */
  | { readonly type: 'since-start'; readonly item: Item; readonly wrong: readonly number[]; readonly isSure: boolean };

export interface ItemState {
  readonly item: Item;
  /** Index in the states of its kind. */
  readonly state: number;
}

export type Unmet =
  | {
      readonly type: 'item';
      readonly item: Item;
      readonly wanted: readonly number[];
      readonly possible: readonly number[];
    }
  /** `inPart`: what was read leaves it open; `lostBy`: it was read on this path, and what has ended that since. */
  | {
      readonly type: 'reading';
      readonly gauge: Gauge;
      readonly known: boolean;
      readonly inPart?: true;
      readonly lostBy?: Ending;
    }
  | { readonly type: 'supply'; readonly supply: Supply; readonly node: number; readonly wanted: boolean }
  | {
      readonly type: 'time';
      readonly item: Item;
      readonly state: number;
      readonly form: 'at least' | 'at most';
      readonly wanted: Seconds;
      /** Where a shortest time is wanted: how much of it is sure on this path. */
      readonly sure?: Seconds;
    };

/** What has ended a reading: something that happened, at a step with words where it has some. */
export interface Ending {
  readonly happening: Happening;
  readonly followed?: Words;
}

export function placeKey(place: Place): string {
  return `${place.file} ${place.start} ${place.end}`;
}

export type { Call, Reason };
