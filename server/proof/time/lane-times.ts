/** How long the lanes beside each other have been at it, in ticks from their fork. */
import type { Track } from '../../flow/graph.ts';
import { either, longest, noTicks, sum, type Ticks } from '../../flow/time.ts';

/** A pair of hands. While it is in a `together` itself, the time in there is kept apart. */
export interface Lane extends Ticks, Within<Lane> {}

/** The lanes of a `together` that the path is in, and which of them is timed; -1 where none is. */
export interface Beside<L = Lane> {
  readonly led: number;
  readonly lanes: readonly L[];
}

/** What is kept of a lane, with what is kept of those in it. */
export interface Within<L> {
  readonly within?: Beside<L>;
}

export const outside: Lane = noTicks;

/** The path that is timed is in this lane. */
export function isLed(lane: Lane, track: Track): boolean {
  let at: Lane | undefined = lane;
  for (const index of track) {
    if (at?.within?.led !== index) return false;
    at = at.within.lanes[index];
  }
  return true;
}

/** Each `together` around the path that is timed, from the one at the track inward. */
export function ledInward(lane: Lane, track: Track): Beside[] {
  const found: Beside[] = [];
  for (let at = laneAt(lane, track)?.within; at; at = at.lanes[at.led]?.within) found.push(at);
  return found;
}

/** The lanes to go down to the path that is timed. */
export function ledTrack(lane: Lane): Track {
  return ledInward(lane, []).map(({ led }) => led);
}

/** For each `together` around it, outermost first, how long the path that is timed has been in it. */
export function ledTimes(lane: Lane): Ticks[] {
  const led = ledInward(lane, []).flatMap(({ lanes, led }) => lanes[led] ?? []);
  return led.map((_, depth) => led.slice(depth).reduce<Ticks>(sum, outside));
}

export function fork(lane: Lane, track: Track, lanes: number, led: number): Lane {
  const within = { led, lanes: Array.from({ length: lanes }, () => outside) };
  return changed(lane, track, (at) => ({ ...at, within }));
}

/** Time passes in one lane. Around all lanes none is counted: nothing looks at it. */
export function elapseIn(lane: Lane, track: Track, time: Ticks): Lane {
  if (track.length === 0 || time.most === 0) return lane;
  return changed(lane, track, (at) => ({ ...at, ...sum(at, time) }));
}

/** The lanes come together, with others that take so long, and then time passes. */
export function join(lane: Lane, track: Track, others: Ticks, time: Ticks): Lane {
  const joined = changed(lane, track, ({ least, most, within }) =>
    sum({ least, most }, within ? longest([...within.lanes.map(reached), others]) : others),
  );
  return track.length === 0 ? outside : elapseIn(joined, track, time);
}

/** How far the lanes are that are not timed. */
export function reachedBeside({ led, lanes }: Beside): Ticks {
  return longest(lanes.filter((_, index) => index !== led).map(reached));
}

/** The times that allow what either allows. */
export function widerLane(one: Lane, other: Lane): Lane {
  const { within } = one;
  const times = either(one, other);
  if (!within) return times;
  const lanes = within.lanes.map((lane, index) => widerLane(lane, other.within?.lanes[index] ?? lane));
  return { ...times, within: { ...within, lanes } };
}

export function sameLane(one: Lane, other: Lane | undefined): boolean {
  const lanes = one.within?.lanes ?? [];
  return (
    one.least === other?.least &&
    one.most === other.most &&
    lanes.every((lane, index) => sameLane(lane, other.within?.lanes[index]))
  );
}

/** Lanes that go on growing round after round. */
export function laneWithoutEnd({ least, within }: Lane): Lane {
  const most = Number.POSITIVE_INFINITY;
  return { least, most, ...(within && { within: { ...within, lanes: within.lanes.map(laneWithoutEnd) } }) };
}

function laneAt(lane: Lane, track: Track): Lane | undefined {
  return track.reduce<Lane | undefined>((at, index) => at?.within?.lanes[index], lane);
}

/** A lane in which the one that a track leads to is changed. */
export function changed<L extends Within<L>>(lane: L, [first, ...further]: Track, change: (lane: L) => L): L {
  if (first === undefined) return change(lane);
  const { within } = lane;
  if (!within) return lane;
  const lanes = within.lanes.map((inner, index) => (index === first ? changed(inner, further, change) : inner));
  return { ...lane, within: { ...within, lanes } };
}

function reached({ least, most, within }: Lane): Ticks {
  return within ? sum({ least, most }, longest(within.lanes.map(reached))) : { least, most };
}
