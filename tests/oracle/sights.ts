/**
 * How old states are beside other lanes. Each lane has ages of its own, by its own clock: an age that another lane has seen already is a floor
 * under what a lane is asked, as all look at one clock, but it is not what its own grow from.
 */
import type { Age, World } from './world.ts';
import { isUnknown, UNKNOWN } from './world.ts';

/** What one lane knows of times. */
export interface Sight {
  readonly ages: World['ages'];
  /** How long it has been at work since each fork around it, the outermost first. */
  readonly clocks: readonly Age[];
}

/** A lane; while it is in a `together` itself, those of that see for it. */
export interface Sighted {
  readonly sight: Sight;
  readonly frame?: { readonly type: string; readonly lanes?: readonly Sighted[] };
}

export function sightAtFork({ ages, clocks }: World): Sight {
  return { ages: ages.map(plain), clocks: [...clocks, { low: 0, high: 0 }] };
}

/** The world as the lane at this place sees it; floors are handed down from the `together` around this one. */
export function seenBy<Lane extends Sighted>(world: World, lanes: readonly Lane[], index: number): World {
  const { ages, clocks } = (lanes[index] as Lane).sight;
  const others = sightsOf(lanes.filter((_, other) => other !== index));
  const seen = ages.map((age, item) => {
    const floors = [world.ages[item]?.floor ?? 0, ...others.map((sight) => sight.ages[item]?.low ?? 0)];
    return age && { ...age, floor: Math.max(...floors) };
  });
  return { ...world, ages: seen, clocks };
}

/** The lanes after one of them has moved, to this world: what it did or found out is so for the others too, each by its clock. */
export function toldToAll<Lane extends Sighted>(lanes: readonly Lane[], index: number, world: World): readonly Lane[] {
  const level = levelOf(lanes);
  const own = world.clocks[level] as Age;
  return lanes.map((lane, other) => {
    if (other === index)
      return { ...lane, sight: { ages: world.ages.map(plain), clocks: world.clocks.slice(0, level + 1) } };
    return withSights(lane, ({ ages, clocks }) => {
      const theirs = clocks[level] as Age;
      const low = theirs.low - own.high;
      const high = theirs.high - own.low;
      // Nobody has come to a later time than what happens now, unless they must have.
      const ahead = { low, high: low > 0 ? high : Math.min(0, high) };
      return { clocks, ages: ages.map((age, item) => age && told(age, world.ages[item] as Age, ahead)) };
    });
  });
}

function told(age: Age, { isNew, told }: Age, ahead: Age): Age {
  if (isNew) return { low: lowOf(ahead.low), high: ahead.high };
  if (!told) return age;
  return { low: Math.max(age.low, lowOf(told.low + ahead.low)), high: Math.min(age.high, told.high + ahead.high) };
}

/** All have come to their ends: then it is as late as it is for the last of them. */
export function seenByAll(world: World, lanes: readonly Sighted[]): World {
  const sights = sightsOf(lanes);
  return {
    ...world,
    ages: world.ages.map((_, item) => latest(sights.map(({ ages }) => ages[item]))),
    clocks: Array.from({ length: levelOf(lanes) }, (_, level) => latest(sights.map(({ clocks }) => clocks[level]))).map(
      (clock) => clock as Age,
    ),
  };
}

/** One lane leaves the others, in its time and no earlier than they have come. */
export function leftBy(world: World, lanes: readonly Sighted[]): World {
  const all = seenByAll(world, lanes);
  const late = (age: Age | undefined, own: Age | undefined) =>
    age && own && { low: Math.max(age.low, own.low), high: Math.max(age.low, own.high) };
  return {
    ...world,
    ages: all.ages.map((age, item) => late(age, world.ages[item])),
    clocks: all.clocks.map((clock, level) => late(clock, world.clocks[level]) as Age),
  };
}

/** What is not told apart, made the same: beside other lanes each has what it knows of times itself. */
export function withoutSight(world: World, frame: Sighted['frame']): World {
  if (frame?.type !== 'together') return { ...world, ages: world.ages.map(plain) };
  return { ...world, ages: world.ages.map(() => undefined), clocks: [] };
}

export function sightKey(lane: Partial<Sighted>): string {
  return lane.sight && lane.frame?.type !== 'together' ? JSON.stringify(lane.sight) : '';
}

/** Each of these lanes is in as many as all of them. */
function levelOf(lanes: readonly Sighted[]): number {
  return (lanes[0] as Sighted).sight.clocks.length - 1;
}

function sightsOf(lanes: readonly Sighted[]): readonly Sight[] {
  return lanes.flatMap(({ sight, frame }) => (frame?.lanes ? sightsOf(frame.lanes) : [sight]));
}

function withSights<Lane extends Sighted>(lane: Lane, change: (sight: Sight) => Sight): Lane {
  const { frame } = lane;
  if (!frame?.lanes) return { ...lane, sight: change(lane.sight) };
  return { ...lane, frame: { ...frame, lanes: frame.lanes.map((inner) => withSights(inner, change)) } };
}

function latest(ages: readonly (Age | undefined)[]): Age | undefined {
  const known = ages.filter((age) => age !== undefined);
  if (known.length === 0) return undefined;
  return { low: Math.max(...known.map(({ low }) => low)), high: Math.max(...known.map(({ high }) => high)) };
}

function plain(age: Age | undefined): Age | undefined {
  return age && { low: age.low, high: age.high };
}

function lowOf(low: number): number {
  return isUnknown(-low) ? -UNKNOWN : low;
}
