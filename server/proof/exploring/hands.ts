/**
 * How long each pair of hands has been at work in its lane, and how long items have been in states as it sees it. Lanes beside each other share one
 * clock, and each is as far as its own moves have taken it: what a lane looks at, it looks at in its own time.
 */
import type { Track } from '../../flow/graph.ts';
import { either, longest, noTicks, sum, type Ticks } from '../../flow/time.ts';

/** Ticks since the item can last have come into the state, and since it must have: less than none where it comes into it later. */
export type Stay = Ticks;

/** One stay for each asked item and state. */
export type Stays = readonly Stay[];

/** The time is that since the fork of their lanes. Around all lanes none is kept: nothing looks at it, and rounds would never be the same. */
export interface Hands extends Ticks, Within<Hands> {
  readonly stays: Stays;
}

/** What is kept of hands, with what is kept of those that are at work for them meanwhile. */
export interface Within<One> {
  readonly within?: Beside<One>;
}

/** The lanes of a `together`, and which of them is timed; -1 where none is. */
export interface Beside<One = Hands> {
  readonly led: number;
  readonly lanes: readonly One[];
}

type Change = (stays: Stays, ahead: Ticks) => Stays;

const endless = Number.POSITIVE_INFINITY;

export function onlyHands(stays: Stays = []): Hands {
  return { ...noTicks, stays };
}

/** At a fork each pair of hands has seen what was seen before. One more stands for all lanes that are not followed, as the last. */
export function forked(hands: Hands, track: Track, lanes: number, led: number): Hands {
  return changed(hands, track, (at) => ({
    ...at,
    within: { led, lanes: Array.from({ length: lanes + 1 }, () => onlyHands(at.stays)) },
  }));
}

/** Time passes in one lane. */
export function elapsed(hands: Hands, track: Track, time: Ticks): Hands {
  return time.most === 0 ? hands : changed(hands, track, (at) => later(at, time));
}

/** The path goes on when the last is done; lanes that are not followed take `others` from the fork. */
export function joined(hands: Hands, track: Track, others: Ticks): Hands {
  return changed(hands, track, (at) => {
    if (!at.within) return later(at, others);
    const last = at.within.lanes.length - 1;
    return united({ ...at, ...eachLane(at, (lane, index) => (index === last ? later(lane, others) : lane)) });
  });
}

/** The path goes on where one lane leaves the others, in its time, and no sooner than they have come to where they are. */
export function left(hands: Hands, track: Track, levels: number): Hands {
  const kept = track.slice(0, Math.max(0, track.length - levels));
  return changed(hands, kept, (at) => {
    const { least, stays } = united(at);
    const inner = track.slice(kept.length);
    const own = at.within ? seen(at, inner) : stays;
    return {
      least,
      most: Math.max(least, timeOn(at, inner).most),
      stays: own.map((stay) => ({ least: stay.least, most: Math.max(stay.least, stay.most) })),
    };
  });
}

/** Around all lanes no time is kept. */
export function aroundAll(hands: Hands): Hands {
  return hands.most === 0 ? hands : { ...hands, ...noTicks };
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
  const lane = first === undefined ? undefined : hands.within?.lanes.at(first);
  return lane ? ownStays(lane, further) : united(hands).stays;
}

/** What happens or becomes known in a lane, for each pair of hands: told by how far each is ahead. */
export function learnt(hands: Hands, track: Track, change: Change): Hands {
  const [first = -1, ...further] = track;
  const lane = hands.within?.lanes[first];
  if (!lane) return eachChanged(hands, noTicks, change);
  const { least, most } = timeOn(lane, further);
  const back: Ticks = { least: -most, most: -least };
  const toldTo = (other: Hands) =>
    eachChanged(other, sum(back, other), (stays, ahead) => change(stays, noLater(ahead)));
  const inner = eachLane(hands, (other, index) => (index === first ? learnt(lane, further, change) : toldTo(other)));
  return { ...hands, ...inner };
}

/** The times that allow what either allows. */
export function eitherHands(one: Hands, other: Hands): Hands {
  const inner = eachLane(one, (lane, index) => eitherHands(lane, other.within?.lanes[index] ?? lane));
  return { ...either(one, other), stays: eitherStays(one.stays, other.stays), ...inner };
}

export function sameHands(one: Hands, other: Hands | undefined): boolean {
  if (one === other) return true;
  const [lanes, others] = [one.within?.lanes ?? [], other?.within?.lanes ?? []];
  return (
    other !== undefined &&
    isSame(one, other) &&
    sameStays(one.stays, other.stays) &&
    lanes.length === others.length &&
    lanes.every((lane, index) => sameHands(lane, others[index]))
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
  const { stays, within } = hands;
  if (!within) return { ...hands, stays: stays.map((stay) => bounded(stay, past, future)) };
  const lanes = within.lanes.map((lane) => abreast(lane, past, future));
  // The last is that which nobody follows.
  const common = Math.min(...lanes.slice(0, -1).map(({ least }) => least));
  const inner = lanes.map((lane) => ({ ...lane, ...bounded(shifted(lane, -common), future, future) }));
  return { ...hands, ...shifted(hands, common), within: { ...within, lanes: inner } };
}

/** What goes on growing round after round is left open; what does not stays as it is. */
export function openedHands(known: Hands, wider: Hands): Hands {
  const inner = eachLane(known, (lane, index) => openedHands(lane, wider.within?.lanes[index] ?? lane));
  return { ...opened(known, wider), stays: openedStays(known.stays, wider.stays), ...inner };
}

export function openedStays(known: Stays, wider: Stays): Stays {
  return known.map((stay, index) => opened(stay, wider[index] as Stay));
}

/** Hands of which those that a track leads to are changed. */
export function changed<One extends Within<One>>(one: One, [first, ...further]: Track, change: (one: One) => One): One {
  if (first === undefined) return change(one);
  return { ...one, ...eachLane(one, (lane, index) => (index === first ? changed(lane, further, change) : lane)) };
}

/** What is kept of the lanes in it, with each as another. */
export function eachLane<One extends Within<One>>(
  { within }: One,
  change: (lane: One, index: number) => One,
): Within<One> {
  return within ? { within: { ...within, lanes: within.lanes.map(change) } } : {};
}

/** Where the clocks allow it, nobody has come to a later time than what happens now. */
function noLater({ least, most }: Ticks): Ticks {
  return { least, most: least > 0 ? most : Math.min(0, most) };
}

/** What is outside of the bounds may be anywhere there. */
function bounded({ least, most }: Ticks, past: number, future: number): Ticks {
  return {
    least: least < -future ? -endless : Math.min(least, past),
    most: most > past ? endless : Math.max(most, -future),
  };
}

/** As far down as to no time at all, and only then without end. */
function opened(known: Ticks, wider: Ticks): Ticks {
  const lowest = wider.least < 0 ? -endless : 0;
  return {
    least: wider.least < known.least ? lowest : known.least,
    most: wider.most > known.most ? endless : known.most,
  };
}

function shifted({ least, most }: Ticks, by: number): Ticks {
  return { least: least + by, most: most + by };
}

function isSame(one: Ticks, other: Ticks): boolean {
  return one.least === other.least && one.most === other.most;
}

function later({ stays, within, ...time }: Hands, passed: Ticks): Hands {
  return { ...sum(time, passed), stays: stays.map((stay) => sum(stay, passed)), ...(within && { within }) };
}

function eachChanged(hands: Hands, ahead: Ticks, change: Change): Hands {
  if (!hands.within) return { ...hands, stays: change(hands.stays, ahead) };
  return { ...hands, ...eachLane(hands, (lane) => eachChanged(lane, sum(ahead, lane), change)) };
}

/** All are where the last of them is. */
export function united(hands: Hands): Hands {
  const { stays, within } = hands;
  if (!within) return hands;
  const lanes = within.lanes.map(united);
  const latest = (index: number) => latestOf(lanes.map((lane) => lane.stays[index] as Stay));
  return { ...sum(hands, longest(lanes)), stays: stays.map((_, index) => latest(index)) };
}

function latestOf(stays: readonly Stay[]): Stay {
  return { least: Math.max(...stays.map(({ least }) => least)), most: Math.max(...stays.map(({ most }) => most)) };
}

/** From the fork of these hands, along one lane. */
function timeOn({ within, ...time }: Hands, [first = -1, ...further]: Track): Ticks {
  const lane = within?.lanes[first];
  return lane ? sum(time, timeOn(lane, further)) : time;
}
