/** For times in every interleaving: each lane with its own time, and without what matters only for the time that it takes. */
import type { Place } from '../../shared/text.ts';
import type { Move, Point } from './graph.ts';
import {
  type DrawnLanes,
  drawProduct,
  forkOf,
  joinOf,
  type LanePart,
  pass,
  type Sink,
  shortened,
  sizeOfProduct,
  within,
} from './lanes.ts';
import { mostProductPoints } from './limits.ts';
import { timeBetween } from './time-between.ts';

export interface Timed {
  /** The lane that is timed; -1 for none. */
  readonly led: number;
  readonly isSilent: (move: Move) => boolean;
}

/** Every interleaving, between a fork and joins. Where there are too many it is blended, and of no use for times. */
export function timedProduct(
  drawn: readonly LanePart[],
  { led, isSilent }: Timed,
  from: Point,
  place: Place,
  sink: Sink,
): DrawnLanes {
  const lanes = drawn.map((lane, index) => silenced(lane, isSilent, index === led));
  const after = sink.point();
  if (sizeOfProduct(lanes) > mostProductPoints) return { after, blended: true };
  const draw = (move: Move, index: number, inside: boolean) => {
    const to = inside ? move.to : sink.point();
    const lane = move.lane ?? { together: place, index, inside };
    sink.add({ ...move, to, lane, track: [index, ...(move.track ?? [])] });
    if (!inside) sink.add({ ...joinOf(to, move.to, place), atOnce: true });
  };
  const begun = sink.point();
  sink.add(forkOf(lanes.length, led, from, begun, place));
  sink.add(joinOf(drawProduct(lanes, begun, sink, draw), after, place));
  return { after, blended: false };
}

/** The lane with its silent moves joined; one that is silent altogether, and not timed, is one move to each of its ends. */
function silenced(lane: LanePart, isSilent: Timed['isSilent'], isLed: boolean): LanePart {
  if (!isLed && lane.moves.every((move) => isSilent(move) || isOfLoop(move) || isLast(move))) return inOneMove(lane);
  return shortened(lane, (before, next) => joinsInSilence(before, next, isSilent));
}

/** Whether two moves in a row are one to a question of time. */
export function joinsInSilence(before: Move, next: Move, isSilent: Timed['isSilent']): boolean {
  return isSilent(next) && (next.time.most === 0 || (isSilent(before) && !before.atOnce && hasSameHands(before, next)));
}

/** Leaving takes no time by itself. Even where it follows at once in the lane, it now does so after something: others may come in before. */
function inOneMove(lane: LanePart): LanePart {
  const [first] = lane.moves;
  if (!first) return lane;
  const through = timeBetween(lane.moves, lane.entry, lane.exit);
  const ending = through ? [{ ...pass(lane.entry, lane.exit, first.place), time: through }] : [];
  const leaving = lane.moves.flatMap((move) => {
    const time = within(lane, move.to) ? undefined : timeBetween(lane.moves, lane.entry, move.from);
    return time ? [{ ...move, from: lane.entry, time, atOnce: false }] : [];
  });
  return { ...lane, moves: [...ending, ...leaving] };
}

function isOfLoop({ happening: { type } }: Move): boolean {
  return type === 'enter-loop' || type === 'again' || type === 'leave-loop';
}

function isLast({ happening: { type } }: Move): boolean {
  return type === 'finish' || type === 'stopping';
}

/** Their times are those of one lane, and of the same roles. */
function hasSameHands(one: Move, other: Move): boolean {
  return sameElements(one.roles, other.roles) && sameElements(one.track ?? [], other.track ?? []);
}

function sameElements<T>(some: readonly T[], others: readonly T[]): boolean {
  return some.length === others.length && some.every((element, index) => element === others[index]);
}
