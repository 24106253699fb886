/**
 * How long items have been in states, as each pair of hands at work sees it. Lanes beside each other share one clock, and each is
 * as far as its own moves have taken it: what a lane looks at, it looks at in its own time.
 */
import type { Track } from '../../flow/graph.ts';
import { either, longest, noTicks, sum, type Ticks } from '../../flow/time.ts';

/** Ticks since the item can last have come into the state, and since it must have: less than none where it comes into it later. */
export type Stay = Ticks;

/** One stay for each asked item and state. */
export type Stays = readonly Stay[];

export interface Hands {
  /** From the fork of their lanes. */
  readonly time: Ticks;
  readonly stays: Stays;
  /** While others are at work for them: the last stands for all lanes that are not followed. */
  readonly lanes?: readonly Hands[];
}

type Change = (stays: Stays, ahead: Ticks) => Stays;

const endless = Number.POSITIVE_INFINITY;

export function onlyHands(stays: Stays): Hands {
  return { time: noTicks, stays };
}

/** At a fork each pair of hands has seen what was seen before. */
export function forked(hands: Hands, track: Track, lanes: number): Hands {
  return changed(hands, track, ({ time, stays }) => ({
    time,
    stays,
    lanes: Array.from({ length: lanes + 1 }, () => onlyHands(stays)),
  }));
}

export function elapsed(hands: Hands, track: Track, time: Ticks): Hands {
  return changed(hands, track, (at) => later(at, time));
}

/** The path goes on when the last is done; lanes that are not followed take `others` from the fork. */
export function joined(hands: Hands, track: Track, others: Ticks): Hands {
  return changed(hands, track, (at) => {
    const lanes = at.lanes?.map((lane, index, { length }) => (index === length - 1 ? later(lane, others) : lane));
    return lanes ? united({ ...at, lanes }) : later(at, others);
  });
}

/** The path goes on where one lane leaves the others, in its time, and no sooner than they have come to where they are. */
export function left(hands: Hands, track: Track, levels: number): Hands {
  const kept = track.slice(0, Math.max(0, track.length - levels));
  return changed(hands, kept, (at) => {
    const { time, stays } = united(at);
    const own = at.lanes ? seen(at, track.slice(kept.length)) : stays;
    const { most } = timeOn(at, track.slice(kept.length));
    return {
      time: { least: time.least, most: Math.max(time.least, most) },
      stays: own.map(({ least, most: latest }) => ({ least, most: Math.max(least, latest) })),
    };
  });
}

/**
 * How long it is by the clock of a lane. It is no less than any other lane has already seen, but where the lanes cannot meet in such an order by
 * their clocks: there each goes by its own.
 */
export function seen(hands: Hands, track: Track): Stays {
  const all = united(hands).stays;
  return ownStays(hands, track).map((own, index) => {
    const { least } = all[index] as Stay;
    return sinceNow({ least: least > own.most ? own.least : least, most: own.most });
  });
}

/** What will only come into its state by the clock of whoever looks is taken to do so now. */
export function sinceNow({ least, most }: Stay): Stay {
  return { least: Math.max(0, least), most: Math.max(0, most) };
}

/** How long it is by the clock of a lane alone; of the lane -1, which nobody follows, as it was at the fork. */
export function ownStays(hands: Hands, [first, ...further]: Track): Stays {
  const lane = first === undefined ? undefined : hands.lanes?.at(first);
  return lane ? ownStays(lane, further) : united(hands).stays;
}

/** What happens or becomes known in a lane, for each pair of hands: told by how far each is ahead. */
export function learnt(hands: Hands, track: Track, change: Change): Hands {
  const { lanes } = hands;
  const [first = -1, ...further] = track;
  const lane = lanes?.[first];
  if (!lanes || !lane) return eachChanged(hands, noTicks, change);
  const { least, most } = timeOn(lane, further);
  const back: Ticks = { least: -most, most: -least };
  return {
    ...hands,
    lanes: lanes.map((other, index) =>
      index === first
        ? learnt(lane, further, change)
        : eachChanged(other, sum(back, other.time), (stays, ahead) => change(stays, noLater(ahead))),
    ),
  };
}

/** The times that allow what either allows. */
export function eitherHands(one: Hands, other: Hands): Hands {
  const lanes = one.lanes?.map((lane, index) => eitherHands(lane, other.lanes?.[index] ?? lane));
  return {
    time: either(one.time, other.time),
    stays: eitherStays(one.stays, other.stays),
    ...(lanes && { lanes }),
  };
}

export function sameHands(one: Hands, other: Hands | undefined): boolean {
  if (one === other) return true;
  return (
    other !== undefined &&
    isSame(one.time, other.time) &&
    sameStays(one.stays, other.stays) &&
    one.lanes?.length === other.lanes?.length &&
    (one.lanes ?? []).every((lane, index) => sameHands(lane, other.lanes?.[index]))
  );
}

export function eitherStays(some: Stays, others: Stays): Stays {
  return some.map((stay, index) => either(stay, others[index] as Stay));
}

export function sameStays(some: Stays, others: Stays): boolean {
  return some === others || some.every((stay, index) => isSame(stay, others[index] as Stay));
}

/** It counts only how far lanes are from each other, and neither beyond the past nor the future: what goes round in one of them alone comes to rest. */
export function abreast(hands: Hands, past: number, future: number): Hands {
  const { lanes } = hands;
  if (!lanes) {
    const stays = eachOrSame(hands.stays, (stay) => within(stay, past, future));
    return stays === hands.stays ? hands : { ...hands, stays };
  }
  const inner = eachOrSame(lanes, (lane) => abreast(lane, past, future));
  // The last is that which nobody follows.
  const common = Math.min(...inner.slice(0, -1).map(({ time }) => time.least));
  const level = eachOrSame(inner, (lane) => {
    const time = within(shifted(lane.time, -common), future, future);
    return time === lane.time ? lane : { ...lane, time };
  });
  return level === lanes ? hands : { ...hands, time: shifted(hands.time, common), lanes: level };
}

/** The same list where nothing in it becomes another. */
function eachOrSame<One>(list: readonly One[], change: (one: One) => One): readonly One[] {
  const changed = list.map(change);
  return changed.every((one, index) => one === list[index]) ? list : changed;
}

function shifted(ticks: Ticks, by: number): Ticks {
  return by === 0 ? ticks : { least: ticks.least + by, most: ticks.most + by };
}

/** What is outside of the bounds may be anywhere there. */
function within(ticks: Ticks, past: number, future: number): Ticks {
  const least = ticks.least < -future ? -endless : Math.min(ticks.least, past);
  const most = ticks.most > past ? endless : Math.max(ticks.most, -future);
  return least === ticks.least && most === ticks.most ? ticks : { least, most };
}

/** Times that go on growing round after round have no end. */
export function handsWithoutEnd({ time, stays, lanes }: Hands): Hands {
  return {
    time: { ...time, most: endless },
    stays: staysWithoutEnd(stays),
    ...(lanes && { lanes: lanes.map(handsWithoutEnd) }),
  };
}

export function staysWithoutEnd(stays: Stays): Stays {
  return stays.map(({ least }) => ({ least, most: endless }));
}

/** Where the clocks allow it, nobody has come to a later time than what happens now. */
function noLater({ least, most }: Ticks): Ticks {
  return { least, most: least > 0 ? most : Math.min(0, most) };
}

function isSame(one: Ticks, other: Ticks): boolean {
  return one.least === other.least && one.most === other.most;
}

function changed(hands: Hands, [first, ...further]: Track, change: (hands: Hands) => Hands): Hands {
  const { lanes } = hands;
  if (first === undefined || !lanes) return change(hands);
  return { ...hands, lanes: lanes.map((lane, index) => (index === first ? changed(lane, further, change) : lane)) };
}

function later({ time, stays, lanes }: Hands, passed: Ticks): Hands {
  return { time: sum(time, passed), stays: stays.map((stay) => sum(stay, passed)), ...(lanes && { lanes }) };
}

function eachChanged({ time, stays, lanes }: Hands, ahead: Ticks, change: Change): Hands {
  if (!lanes) return { time, stays: change(stays, ahead) };
  return { time, stays, lanes: lanes.map((lane) => eachChanged(lane, sum(ahead, lane.time), change)) };
}

/** All are where the last of them is. */
function united({ time, stays, lanes }: Hands): Hands {
  if (!lanes) return { time, stays };
  const inner = lanes.map(united);
  return {
    time: sum(time, longest(inner.map((lane) => lane.time))),
    stays: stays.map((_, index) => latest(inner.map((lane) => lane.stays[index] as Stay))),
  };
}

function latest(stays: readonly Stay[]): Stay {
  return { least: Math.max(...stays.map(({ least }) => least)), most: Math.max(...stays.map(({ most }) => most)) };
}

/** From the fork of these hands, along one lane. */
function timeOn({ time, lanes }: Hands, [first = -1, ...further]: Track): Ticks {
  const lane = lanes?.[first];
  return lane ? sum(time, timeOn(lane, further)) : time;
}
