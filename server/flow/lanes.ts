import type { Item } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import type { Move, Point } from './graph.ts';
import { noTicks, type Ticks } from './time.ts';
import { timeBetween } from './time-between.ts';

/** One lane of a `together`, drawn by itself. Its points are those from `firstPoint` up to `lastPoint`. */
export interface LanePart {
  readonly entry: Point;
  readonly exit: Point;
  readonly firstPoint: Point;
  readonly lastPoint: Point;
  readonly moves: readonly Move[];
}

/** What lanes may set. */
type Changes = readonly { readonly item: Item; readonly state: number }[];

export interface Sink {
  point(): Point;
  add(move: Move): void;
}

/** The index of a lane that is none: what happens there is done by others. */
const nobody = -1;

const mostProductPoints = 200_000;

const within = (lane: LanePart, point: Point): boolean => lane.firstPoint <= point && point < lane.lastPoint;

function pass(from: Point, to: Point, place: Place): Move {
  return { from, to, place, happening: { type: 'pass' }, time: noTicks, statement: place, roles: [] };
}

/** Every interleaving: a point of the product is one point of each lane. Too many of them, and the moves may come in any order and number. */
export function productOfLanes(
  drawn: readonly LanePart[],
  from: Point,
  place: Place,
  sink: Sink,
): { after: Point; blended: boolean } {
  const lanes = drawn.map(withoutBarePasses);
  const movesOf = lanes.map((lane) => groupByPoint(lane.moves));
  const size = movesOf.reduce((product, moves) => product * (moves.size + 1), 1);
  if (size > mostProductPoints) return { after: anyOrder(lanes, from, place, sink), blended: true };
  const known = new Map<string, Point>();
  const queue: { at: readonly Point[]; point: Point }[] = [];
  const pointOf = (at: readonly Point[]): Point => {
    const key = at.join(',');
    let point = known.get(key);
    if (point === undefined) {
      point = sink.point();
      known.set(key, point);
      queue.push({ at, point });
    }
    return point;
  };
  sink.add(pass(from, pointOf(lanes.map((lane) => lane.entry)), place));
  const after = pointOf(lanes.map((lane) => lane.exit));
  for (let here = queue.pop(); here; here = queue.pop()) {
    const { at, point } = here;
    const movesAt = lanes.map((_, index) => movesOf[index]?.get(at[index] as Point) ?? []);
    const first = movesAt.findIndex((moves) => moves.some((move) => move.atOnce));
    lanes.forEach((lane, index) => {
      if (first !== -1 && first !== index) return;
      for (const move of movesAt[index] as readonly Move[]) {
        const to = within(lane, move.to) ? pointOf(at.map((other, i) => (i === index ? move.to : other))) : move.to;
        const inside = within(lane, move.to);
        sink.add({ ...move, from: point, to, lane: move.lane ?? { together: place, index, inside } });
      }
    });
  }
  return { after, blended: false };
}

/**
 * A pass on which nothing happens is joined to the move before it: it would only multiply the interleavings. Not so where the
 * lane then goes on at once: others may come in before the pass.
 */
function withoutBarePasses(lane: LanePart): LanePart {
  const from = groupByPoint(lane.moves);
  const bare = (point: Point): Move | undefined => {
    const moves = from.get(point) ?? [];
    const only = moves.length === 1 ? moves[0] : undefined;
    if (only?.happening.type !== 'pass' || only.words || !within(lane, only.to)) return undefined;
    return from.get(only.to)?.some(({ atOnce }) => atOnce) ? undefined : only;
  };
  const extend = (move: Move): Move => {
    let extended = move;
    const seen = new Set<Point>();
    for (
      let next = bare(move.to);
      next && within(lane, extended.to) && !seen.has(extended.to);
      next = bare(extended.to)
    ) {
      seen.add(extended.to);
      const time = { least: extended.time.least + next.time.least, most: extended.time.most + next.time.most };
      extended = { ...extended, to: next.to, time, steps: [...(extended.steps ?? []), ...(next.steps ?? [])] };
    }
    return extended;
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
      sink.add({
        ...move,
        from: middle,
        to: within(lane, move.to) ? middle : move.to,
        lane: { together: place, index, inside: false },
      });
    }
  });
  const after = sink.point();
  sink.add(pass(middle, after, place));
  return after;
}

function groupByPoint(moves: readonly Move[]): Map<Point, Move[]> {
  const groups = new Map<Point, Move[]>();
  for (const move of moves) {
    const group = groups.get(move.from);
    if (group) group.push(move);
    else groups.set(move.from, [move]);
  }
  return groups;
}

/**
 * For timing: the path goes through one lane and waits at its end for the others. What the others may set meanwhile is
 * told at the fork and the join, and where one of them may end the card, so may the path.
 */
export function leadLane(drawn: readonly LanePart[], leader: number, from: Point, place: Place, sink: Sink): Point {
  const lanes = drawn.map(withoutUnreached);
  const lead = lanes[leader];
  if (!lead) return sideBySide(lanes, from, place, sink);
  const others = lanes.filter((_, index) => index !== leader);
  const changes = others.flatMap((lane) => changesOf(lane.moves));
  const after = sink.point();
  const move = pass(from, lead.entry, place);
  sink.add({ ...move, happening: { type: 'fork', changes } });
  for (const leadMove of lead.moves)
    sink.add({
      ...leadMove,
      lane: leadMove.lane ?? { together: place, index: leader, inside: within(lead, leadMove.to) },
    });
  if (others.every(comesToItsEnd))
    sink.add({ ...pass(lead.exit, after, place), happening: { type: 'join', others: longestOf(others), changes } });
  const led = [lead.entry, ...lead.moves.map(({ to }) => to)].filter((point) => within(lead, point));
  for (const lane of others) drawLeavings(lane, [...new Set(led)], changes, place, sink);
  return after;
}

/** No lane is followed: together they take as long as the longest. */
function sideBySide(lanes: readonly LanePart[], from: Point, place: Place, sink: Sink): Point {
  const beside = sink.point();
  const after = sink.point();
  const changes = lanes.flatMap((lane) => changesOf(lane.moves));
  sink.add({ ...pass(from, beside, place), happening: { type: 'fork', changes } });
  if (lanes.every(comesToItsEnd))
    sink.add({
      ...pass(beside, after, place),
      happening: { type: 'join', others: noTicks, changes },
      time: longestOf(lanes),
      lane: { together: place, index: nobody, inside: false },
    });
  for (const lane of lanes) drawLeavings(lane, [beside], changes, place, sink);
  return after;
}

/** Where another lane leaves the others, the path does so wherever it is, once that lane has come there. */
function drawLeavings(lane: LanePart, from: readonly Point[], changes: Changes, place: Place, sink: Sink): void {
  const leavings = lane.moves.filter((leaving) => !within(lane, leaving.to));
  for (const leaving of leavings) {
    const met = sink.point();
    const others = timeBetween(lane.moves, lane.entry, leaving.from) ?? noTicks;
    for (const point of from) sink.add({ ...pass(point, met, place), happening: { type: 'join', others, changes } });
    sink.add({ ...leaving, from: drawQuestionBefore(leaving, lane, met, sink) });
  }
}

/** A lane that always leaves by a stop or a jump never meets the others again. */
function comesToItsEnd({ moves, entry, exit }: LanePart): boolean {
  return timeBetween(moves, entry, exit) !== undefined;
}

function withoutUnreached(lane: LanePart): LanePart {
  const from = groupByPoint(lane.moves);
  const reached = new Set([lane.entry]);
  for (const point of reached) for (const { to } of from.get(point) ?? []) if (within(lane, to)) reached.add(to);
  return { ...lane, moves: lane.moves.filter((move) => reached.has(move.from)) };
}

/** What the other lane found when it left may be something that the lane that is followed brought about. */
function drawQuestionBefore(leaving: Move, lane: LanePart, from: Point, sink: Sink): Point {
  const [before, ...others] = lane.moves.filter(({ to }) => to === leaving.from);
  if (before?.happening.type !== 'assume' || others.length > 0) return from;
  const asked = sink.point();
  sink.add({ ...before, from, to: asked, time: noTicks });
  return asked;
}

function changesOf(moves: readonly Move[]): Changes {
  const changes = new Map<string, { item: Item; state: number }>();
  for (const { happening } of moves) {
    if (happening.type === 'set' || happening.type === 'begin') {
      changes.set(`${happening.item.id} ${happening.state}`, { item: happening.item, state: happening.state });
    }
  }
  return [...changes.values()];
}

function longestOf(lanes: readonly LanePart[]): Ticks {
  const times = lanes.map((lane) => timeBetween(lane.moves, lane.entry, lane.exit) ?? noTicks);
  return {
    least: Math.max(0, ...times.map((time) => time.least)),
    most: Math.max(0, ...times.map((time) => time.most)),
  };
}
