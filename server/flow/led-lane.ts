/** For times: of lanes side by side one is followed, and the others are told by how long they take. */
import type { Item } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import { type Changes, groupByPoint, type Move, type Point } from './graph.ts';
import { type LanePart, pass, type Sink, within } from './lanes.ts';
import { longest, noTicks, type Ticks } from './time.ts';
import { timeBetween, timesFrom } from './time-between.ts';

/** The index of a lane that is none: what happens there is done by others. */
const nobody = -1;

/**
 * The path goes through one lane and waits at its end for the others. What the others may set meanwhile is told at the fork
 * and the join, and where one of them may end the card, so may the path.
 */
export function leadLane(drawn: readonly LanePart[], leader: number, from: Point, place: Place, sink: Sink): Point {
  const lanes = drawn.map(withoutUnreached);
  const lead = lanes[leader];
  if (!lead) return sideBySide(lanes, from, place, sink);
  const others = lanes.filter((_, index) => index !== leader);
  const changes = others.flatMap((lane) => changesOf(lane.moves));
  const after = sink.point();
  const join = (at: Point, to: Point, time: Ticks) =>
    sink.add({ ...pass(at, to, place), happening: { type: 'join', others: time, changes } });
  sink.add({ ...pass(from, lead.entry, place), happening: { type: 'fork', lanes: 1, led: 0, changes } });
  for (const move of lead.moves) {
    const inside = within(lead, move.to);
    const to = inside ? move.to : sink.point();
    const lane = move.lane ?? { together: place, index: leader, inside };
    sink.add({ ...move, to, lane, track: [0, ...(move.track ?? [])] });
    if (!inside) join(to, move.to, { least: 0, most: furthest(others) });
  }
  if (others.every(comesToItsEnd)) join(lead.exit, after, longestOf(others));
  const led = new Set([...lead.moves.map(({ from }) => from), lead.exit]);
  // By then any other lane may have gone on further.
  const leave = (at: Point, to: Point, { least }: Ticks) => join(at, to, { least, most: furthest(others) });
  drawLeavings(others, [...led], leave, sink);
  return after;
}

/** No lane is followed: together they take as long as the longest. */
function sideBySide(lanes: readonly LanePart[], from: Point, place: Place, sink: Sink): Point {
  const beside = sink.point();
  const after = sink.point();
  const changes = lanes.flatMap((lane) => changesOf(lane.moves));
  const join = (at: Point, to: Point, time: Ticks) =>
    sink.add({
      ...pass(at, to, place),
      happening: { type: 'join', others: noTicks, changes },
      time,
      lane: { together: place, index: nobody, inside: false },
    });
  sink.add({ ...pass(from, beside, place), happening: { type: 'fork', lanes: 0, led: nobody, changes } });
  if (lanes.every(comesToItsEnd)) join(beside, after, longestOf(lanes));
  drawLeavings(lanes, [beside], join, sink);
  return after;
}

/** Where a lane that is not followed leaves the others, the path does so wherever it is, once that lane has come there. */
function drawLeavings(
  lanes: readonly LanePart[],
  from: readonly Point[],
  join: (at: Point, to: Point, time: Ticks) => void,
  sink: Sink,
): void {
  for (const lane of lanes) {
    for (const leaving of lane.moves.filter(({ to }) => !within(lane, to))) {
      const met = sink.point();
      const time = timeBetween(lane.moves, lane.entry, leaving.from) ?? noTicks;
      for (const point of from) join(point, met, time);
      sink.add({ ...leaving, from: met });
    }
  }
}

/** The most that any of the lanes takes to anywhere. */
function furthest(lanes: readonly LanePart[]): number {
  return longest(lanes.flatMap((lane) => [...timesFrom(lane.moves, [lane.entry]).values()])).most;
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
  return longest(lanes.map((lane) => timeBetween(lane.moves, lane.entry, lane.exit) ?? noTicks));
}
