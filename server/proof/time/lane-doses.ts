/**
 * Doses in lanes. Whoever is there while a lane lasts gets what is the loudest during each of its moves, and then while the lane waits for
 * the others: so a dose may be counted along any lane, and is no more than along any of them. Along the lane that makes the noise it is
 * exact; the lane of the role ends it.
 */
import type { Move } from '../../flow/graph.ts';
import { either, longest, noTicks, sum, type Ticks } from '../../flow/time.ts';
import { changed, eachLane, type Within } from '../exploring/hands.ts';

/** Percent of the permissible dose; at least so much where some time is unknown, which counts as its least. */
interface Got {
  readonly percent: number;
  readonly atLeast: boolean;
}

/** What somebody gets who is there while a lane lasts, how long that is, and how loud it was at any time since the lane's last move. */
export interface LaneDose extends Got, Ticks, Within<LaneDose> {
  readonly loudest: number;
}

type DoseOf = (level: number, ticks: number) => number;

export const noDose: LaneDose = { ...noTicks, percent: 0, atLeast: false, loudest: 0 };

/** A move is made where it is so loud: by then other lanes may have made it louder, and quiet again. */
export function passMove(
  here: LaneDose,
  { happening, time, track = [] }: Move,
  level: number,
  doseOf: DoseOf,
): LaneDose {
  return changed(hearing(here, level), track, (lane) => {
    if (happening.type === 'fork') return forked(lane, happening.lanes, happening.led);
    const at = happening.type === 'join' ? joined(lane, doseOf) : lane;
    // Around all lanes no time is kept: nothing looks at it.
    const lasting = track.length === 0 ? noTicks : sum(at, time);
    return { ...at, ...exposed(at, time, doseOf), ...lasting, loudest: 0 };
  });
}

function hearing(lane: LaneDose, level: number): LaneDose {
  if (level === 0) return lane;
  return { ...lane, loudest: Math.max(lane.loudest, level), ...eachLane(lane, (inner) => hearing(inner, level)) };
}

function exposed({ percent, atLeast, loudest }: LaneDose, { least, most }: Ticks, doseOf: DoseOf): Got {
  if (loudest === 0) return { percent, atLeast };
  const unknown = most === Number.POSITIVE_INFINITY;
  return { percent: percent + doseOf(loudest, unknown ? least : most), atLeast: atLeast || unknown };
}

function forked(lane: LaneDose, lanes: number, led: number): LaneDose {
  return { ...lane, loudest: 0, within: { led, lanes: Array.from({ length: lanes }, () => noDose) } };
}

/** The lanes come together, those in them too. A role with a lane of its own is exposed until the end of that one, any other until the end of all. */
export function joined(lane: LaneDose, doseOf: DoseOf): LaneDose {
  const { within, ...around } = lane;
  if (!within) return lane;
  const lanes = within.lanes.map((inner) => joined(inner, doseOf));
  const own = lanes[within.led];
  const all = longest(lanes);
  const until = own ?? all;
  const along = lanes.map((one) => (one === own ? one : exposed(one, rest(until, one), doseOf)));
  const { percent, atLeast } = leastOf(along, own);
  return { ...around, ...sum(lane, all), percent: lane.percent + percent, atLeast: lane.atLeast || atLeast };
}

/** How long it is from one end to another. */
function rest(until: Ticks, from: Ticks): Ticks {
  return { least: Math.max(0, until.least - from.most), most: Math.max(0, until.most - from.least) };
}

/** Along a lane with unknown times it may be more than is known, so that it bounds nothing; but along its own a role gets no more than is known of that. */
function leastOf(along: readonly Got[], own: Got | undefined): Got {
  const bounds = along.filter((got) => got === own || !got.atLeast);
  if (bounds.length > 0) return bounds.reduce((least, got) => (got.percent < least.percent ? got : least));
  return along.reduce<Got>((most, got) => (got.percent > most.percent ? got : most), noDose);
}

/** What allows either. */
export function widerDose(known: LaneDose, arriving: LaneDose): LaneDose {
  return sameOr(known, {
    ...together(known, arriving, widerDose),
    ...either(known, arriving),
    percent: Math.max(known.percent, arriving.percent),
  });
}

/** What goes on growing round after round: at least so much, and for a time without end. */
export function doseWithoutEnd(known: LaneDose, grown: LaneDose): LaneDose {
  const grows = together(known, grown, doseWithoutEnd);
  const lasts = { least: grown.least, most: grown.most > known.most ? Number.POSITIVE_INFINITY : known.most };
  return sameOr(known, { ...grows, ...lasts, atLeast: grows.atLeast || grown.percent > known.percent });
}

/** Both, lane by lane; what else they have is that of the known one. */
function together(known: LaneDose, other: LaneDose, both: (a: LaneDose, b: LaneDose) => LaneDose): LaneDose {
  return {
    ...known,
    atLeast: known.atLeast || other.atLeast,
    loudest: Math.max(known.loudest, other.loudest),
    ...eachLane(known, (lane, index) => both(lane, other.within?.lanes[index] ?? lane)),
  };
}

function sameOr(known: LaneDose, other: LaneDose): LaneDose {
  return sameDose(known, other) ? known : other;
}

function sameDose(a: LaneDose, b: LaneDose): boolean {
  return (
    a.percent === b.percent &&
    a.atLeast === b.atLeast &&
    a.loudest === b.loudest &&
    a.least === b.least &&
    a.most === b.most &&
    (a.within?.lanes ?? []).every((lane, index) => lane === b.within?.lanes[index])
  );
}
