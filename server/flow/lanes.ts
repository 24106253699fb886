import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';
import { groupByPoint, type Move, type Point } from './graph.ts';
import { mostProductPoints } from './limits.ts';
import { noTicks, sum } from './time.ts';

/** One lane of a `together`, drawn by itself. Its points are those from `firstPoint` up to `lastPoint`. */
export interface LanePart {
  readonly entry: Point;
  readonly exit: Point;
  readonly firstPoint: Point;
  readonly lastPoint: Point;
  readonly moves: readonly Move[];
}

/** Where the path goes on after the lanes; `blended` where their interleavings were too many to be drawn apart. */
export interface DrawnLanes {
  readonly after: Point;
  readonly blended: boolean;
}

export interface Sink {
  point(): Point;
  add(move: Move): void;
}

export const within = (lane: LanePart, point: Point): boolean => lane.firstPoint <= point && point < lane.lastPoint;

export function pass(from: Point, to: Point, place: Place): Move {
  return { from, to, place, happening: { type: 'pass' }, time: noTicks, statement: place, roles: [] };
}

/**
 * Every interleaving: a point of the product is one point of each lane. Too many of them, and the moves may come in any order and number.
 * @param keepsTimes the times of the lanes are to be known at each move, and where they begin and come together
 */
export function productOfLanes(
  drawn: readonly LanePart[],
  from: Point,
  place: Place,
  sink: Sink,
  keepsTimes: boolean,
): DrawnLanes {
  const isOfTimes = ({ time, leaves }: Move) => time.most > 0 || leaves !== undefined;
  const mayJoin = (move: Move) => move.happening.type === 'pass' && !move.reason && !(keepsTimes && isOfTimes(move));
  const lanes = drawn.map((lane) => shortened(lane, (_, next) => mayJoin(next)));
  if (sizeOfProduct(lanes) > mostProductPoints) return { after: anyOrder(lanes, from, place, sink), blended: true };
  const begun = sink.point();
  sink.add(keepsTimes ? forkOf(lanes.length, -1, from, begun, place) : pass(from, begun, place));
  const done = drawProduct(lanes, begun, sink, (move, index, inside) => {
    const lane = move.lane ?? { together: place, index, inside };
    sink.add(keepsTimes ? onTrack({ ...move, lane }, index, inside) : { ...move, lane });
  });
  if (!keepsTimes) return { after: done, blended: false };
  const after = sink.point();
  sink.add(joinOf(done, after, place));
  return { after, blended: false };
}

function onTrack(move: Move, index: number, inside: boolean): Move {
  const track = [index, ...(move.track ?? [])];
  return inside ? { ...move, track } : { ...move, track, leaves: 1 + (move.leaves ?? 0) };
}

/** `led`: the lane that is timed, -1 for none. */
export function forkOf(lanes: number, led: number, from: Point, to: Point, place: Place): Move {
  return { ...pass(from, to, place), happening: { type: 'fork', lanes, led, changes: [] } };
}

/** Where all lanes are followed. */
export function joinOf(from: Point, to: Point, place: Place): Move {
  return { ...pass(from, to, place), happening: { type: 'join', others: noTicks, changes: [] } };
}

/** The number of points that the product of the lanes would have. */
export function sizeOfProduct(lanes: readonly LanePart[]): number {
  return lanes.reduce((product, lane) => product * (new Set(lane.moves.map((move) => move.from)).size + 1), 1);
}

/** Draws the product from the point where the lanes begin; each move of lane `index` is drawn by `draw`, told whether it stays inside. Gives the point where all lanes are done. */
export function drawProduct(
  lanes: readonly LanePart[],
  from: Point,
  sink: Sink,
  draw: (move: Move, index: number, inside: boolean) => void,
): Point {
  const movesOf = lanes.map((lane) => groupByPoint(lane.moves));
  const entries = lanes.map((lane) => lane.entry);
  const known = new Map([[entries.join(','), from]]);
  const queue: { at: readonly Point[]; point: Point }[] = [{ at: entries, point: from }];
  const pointOf = (at: readonly Point[]): Point =>
    getOrInsert(known, at.join(','), () => {
      const point = sink.point();
      queue.push({ at, point });
      return point;
    });
  const after = pointOf(lanes.map((lane) => lane.exit));
  for (let here = queue.pop(); here; here = queue.pop()) {
    const { at, point } = here;
    const movesAt = lanes.map((_, index) => movesOf[index]?.get(at[index] as Point) ?? []);
    const first = movesAt.findIndex((moves) => moves.some((move) => move.atOnce));
    lanes.forEach((lane, index) => {
      if (first !== -1 && first !== index) return;
      for (const move of movesAt[index] as readonly Move[]) {
        const inside = within(lane, move.to);
        const to = inside ? pointOf(at.map((other, i) => (i === index ? move.to : other))) : move.to;
        draw({ ...move, from: point, to }, index, inside);
      }
    });
  }
  return after;
}

/**
 * A move that may be joined to the one before it is: it would only multiply the interleavings. Not so where the lane then
 * goes on at once: others may come in before the move.
 */
export function shortened(lane: LanePart, mayJoin: (before: Move, next: Move) => boolean): LanePart {
  const from = groupByPoint(lane.moves);
  const onlyWay = (point: Point): Move | undefined => {
    const moves = from.get(point) ?? [];
    const only = moves.length === 1 ? moves[0] : undefined;
    if (!only || !within(lane, only.to)) return undefined;
    return from.get(only.to)?.some(({ atOnce }) => atOnce) ? undefined : only;
  };
  const extend = (move: Move): Move => {
    let { to, time } = move;
    const steps = [...(move.steps ?? [])];
    const joined = new Set<Point>();
    for (let next = onlyWay(to); next && mayJoin(move, next) && !joined.has(to); next = onlyWay(to)) {
      joined.add(to);
      to = next.to;
      time = sum(time, next.time);
      steps.push(...(next.steps ?? []));
    }
    return joined.size === 0 ? move : { ...move, to, time, steps };
  };
  const moves: Move[] = [];
  const queue = [lane.entry];
  const reached = new Set(queue);
  for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
    for (const move of (from.get(point) ?? []).map(extend)) {
      moves.push(move);
      if (!within(lane, move.to) || reached.has(move.to)) continue;
      reached.add(move.to);
      queue.push(move.to);
    }
  }
  return { ...lane, moves };
}

function anyOrder(lanes: readonly LanePart[], from: Point, place: Place, sink: Sink): Point {
  const middle = sink.point();
  sink.add(pass(from, middle, place));
  lanes.forEach((lane, index) => {
    for (const move of lane.moves) {
      const { track: _, leaves: __, ...untimed } = move;
      sink.add({
        ...untimed,
        happening: isBetweenLanes(move) ? { type: 'pass' } : move.happening,
        from: middle,
        to: within(lane, move.to) ? middle : move.to,
        lane: { together: place, index, inside: false, inAnyOrder: true },
      });
    }
  });
  const after = sink.point();
  sink.add(pass(middle, after, place));
  return after;
}

function isBetweenLanes({ happening: { type } }: Move): boolean {
  return type === 'fork' || type === 'join';
}
