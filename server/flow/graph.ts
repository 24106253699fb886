/**
 * A card as a graph of points and moves. A point is where a path may stand; a move is one thing that happens, with the time that it takes.
 * The graph knows what happens, not whether it is good.
 */
import type {
  Action,
  AdmonitionLevel,
  AssumedState,
  Change,
  Condition,
  Gauge,
  Hazard,
  Item,
  Role,
  Statement,
  Step,
  Words,
} from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';
import type { Call } from './calls.ts';
import type { Ticks } from './time.ts';

export type Point = number;

/** What lanes that are not followed may set. */
export type Changes = readonly { readonly item: Item; readonly state: number }[];

export type Happening =
  | { readonly type: 'pass' }
  /** The path goes on here only where the condition holds, or fails to; it knows it from then on, unless it only passed by. */
  | { readonly type: 'assume'; readonly condition: Condition; readonly holds: boolean; readonly inPassing?: true }
  | { readonly type: 'set'; readonly item: Item; readonly state: number }
  /** A `run` enters its state; what was before is kept under the number of the run. */
  | { readonly type: 'begin'; readonly run: number; readonly item: Item; readonly state: number }
  /** A run is over. What its `until` has just shown is still known, but for gauges that the item moves. */
  | { readonly type: 'end'; readonly run: number; readonly item: Item; readonly state: number; readonly shows?: true }
  /** Something takes its time: what is only seen may change, readings pass. */
  | { readonly type: 'moment'; readonly cause: 'wait' | 'bring' | 'step'; readonly gauge?: Gauge }
  /** A jump back: readings pass, nothing moves. */
  | { readonly type: 'forget' }
  /** The time of a run until something is so: what others have read meanwhile of the gauges that the item moves is no longer known. */
  | { readonly type: 'meanwhile'; readonly movedBy: Item }
  | { readonly type: 'admonish'; readonly hazard: Hazard; readonly level: AdmonitionLevel }
  | { readonly type: 'enter-loop'; readonly loop: number }
  /** Possible while fewer than `times` rounds are done. */
  | { readonly type: 'again'; readonly loop: number; readonly times: number }
  /** Possible once `times` rounds are done; without `times` at any round. */
  | { readonly type: 'leave-loop'; readonly loop: number; readonly times?: number }
  /** The card is being stopped here. */
  | { readonly type: 'stopping'; readonly site: number }
  /** A stage for stops itself stops here. */
  | { readonly type: 'stopping-early'; readonly site: number }
  /** A card is entered that assumes these states. */
  | { readonly type: 'call'; readonly assumes: readonly AssumedState[] }
  /** So many lanes begin. Timing only: one of them is timed; lanes that are not followed may set these items meanwhile. */
  | { readonly type: 'fork'; readonly lanes: number; readonly led: number; readonly changes: Changes }
  /** The path goes on when all lanes have come here. Timing only: those that are not followed take this long from the fork. */
  | { readonly type: 'join'; readonly others: Ticks; readonly changes: Changes }
  | { readonly type: 'finish' }
  | { readonly type: 'stopped' };

/** Why a path goes on as it does. */
export type Reason =
  | { readonly type: 'fails'; readonly what: 'check' | 'reading' | 'bring' | 'run' | 'wait' | 'keep' }
  | { readonly type: 'watch-fails'; readonly gauge: Gauge }
  | { readonly type: 'condition'; readonly holds: boolean }
  /** To a question that people answer. */
  | { readonly type: 'answer'; readonly question: Words | undefined; readonly answer: Answer }
  /** Whether what the rounds of a `repeat` are for has come about. */
  | { readonly type: 'until'; readonly answer: Answer }
  | { readonly type: 'choice'; readonly way: Words }
  /** A loop goes round: which time, or 0 where that is not counted. */
  | { readonly type: 'round'; readonly number: number }
  | { readonly type: 'jump'; readonly to: string; readonly back: boolean }
  | { readonly type: 'stop' };

export type Answer = 'yes' | 'no' | 'not yet';

export interface Move {
  readonly from: Point;
  readonly to: Point;
  readonly happening: Happening;
  readonly time: Ticks;
  /** What a finding about this move points at. */
  readonly place: Place;
  /** Why a path goes on by this move, where a writer is to be told; it is passed over in silence where there is none. */
  readonly reason?: Reason;
  /** The steps that this move enters. */
  readonly steps?: readonly Step[];
  /** The statement or action that asks, and how it went. */
  readonly branch?: { readonly statement: Statement | Action; readonly form: 'check' | 'if'; readonly passes: boolean };
  /** Which change of the card it makes. */
  readonly change?: Change;
  /** The statement before which something may be inserted: the step, or the statement itself. */
  readonly statement: Place;
  readonly roles: readonly Role[];
  /** Where the card does the procedure that it stands in, if it does that several times. */
  readonly call?: Call;
  /** It follows at once on what was before: a question on the end of its wait, an `else` on what failed. No other lane comes in between. */
  readonly atOnce?: boolean;
  readonly lane?: InLane;
  /** The lanes that it happens in, each within the one before; absent where it happens in none, or where lanes come in any order. */
  readonly track?: Track;
  /** Out of how many of these the path leaves by it, before their lanes are done. */
  readonly leaves?: number;
  /** Timing only: all rounds of a loop but the first, as one move. */
  readonly rounds?: JoinedRounds;
}

/** From the outermost `together` inward, the lanes to go down to a place. */
export type Track = readonly number[];

/** In which lane of which `together` a move happens, and whether the path is still in that `together` after it. */
export interface InLane {
  readonly together: Place;
  readonly index: number;
  readonly inside: boolean;
  /** The moves of the lanes come in any order and number. */
  readonly inAnyOrder?: true;
}

export interface JoinedRounds {
  /** Begins each of them. */
  readonly again: Move;
  readonly round: readonly Move[];
  readonly times: number;
}

export interface Flow {
  readonly points: number;
  readonly start: Point;
  readonly moves: readonly Move[];
  /** All steps of the configuration. */
  readonly steps: readonly Step[];
  /** Moves by the point that they leave. */
  readonly from: readonly (readonly number[])[];
  /** For each loop how many are around it. */
  readonly loops: readonly number[];
  readonly runs: readonly Item[];
  /** Where a stop is written, or the check that fails stands. */
  readonly stopSites: readonly StopSite[];
  /** The interleavings of lanes were too many and are all allowed in any order and number. */
  readonly blended: boolean;
  /** A jump leads to a label that is not there, and its paths are not followed. */
  readonly unknownJumps: boolean;
}

export interface StopSite {
  readonly place: Place;
  readonly call?: Call | undefined;
}

/** Names the `together` that a lane belongs to. */
export function togetherOf({ together }: InLane): string {
  return `${together.file} ${together.start}`;
}

export function groupByPoint(moves: readonly Move[], end: 'from' | 'to' = 'from'): Map<Point, Move[]> {
  const groups = new Map<Point, Move[]>();
  for (const move of moves) {
    getOrInsert(groups, move[end], () => []).push(move);
  }
  return groups;
}
