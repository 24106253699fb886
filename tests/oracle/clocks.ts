/**
 * Time on a concrete run. Every duration takes either its least or its most: the questions that are asked of time (the longest run, the shortest rest,
 * the closest starts) have their answers at these ends, so the runs with all their choices show the worst.
 */
import type { Duty } from '../../shared/card.ts';
import type { Sightings } from './verdicts.ts';
import { type Age, type DutyRecord, type DutyState, isUnknown, type Setting, UNKNOWN, type World } from './world.ts';

/** A stretch of time that is known only to lie between these; `most` may be `UNKNOWN`. */
export interface Stretch {
  readonly least: number;
  readonly most: number;
}

export const NO_TIME: Stretch = { least: 0, most: 0 };
const JUST_NOW: Age = { low: 0, high: 0, isNew: true };
export const ANY_TIME: Stretch = { least: 0, most: UNKNOWN };

/** The lengths that a run must try for a stretch. */
export function lengthsOf(setting: Setting, stretch: Stretch): readonly number[] {
  if (setting.dutyStates.length === 0) return [0];
  return stretch.least === stretch.most ? [stretch.least] : [stretch.least, stretch.most];
}

/** Everything that is timed by its age grows older. */
export function grownOlder(world: World, stretch: Stretch, setting: Setting): World {
  if (setting.timedItems.size === 0) return world;
  const cap = setting.longestAsked;
  const older = (age: Age): Age => {
    const high = age.high + stretch.most;
    return { ...age, low: Math.min(age.low + stretch.least, cap), high: high > cap ? UNKNOWN : high };
  };
  const later = ({ low, high }: Age): Age => {
    const most = high + stretch.most;
    return { low: low + stretch.least, high: isUnknown(most) ? UNKNOWN : most };
  };
  return { ...world, ages: world.ages.map((age) => age && older(age)), clocks: world.clocks.map(later) };
}

/** The duty clocks after an item went from one state to another at `now`, by the action at `place`. */
export function clocksAfterChange(
  setting: Setting,
  world: World,
  before: readonly number[],
  now: number,
  place: string,
  sightings: Sightings,
): World {
  if (setting.dutyStates.length + setting.timedItems.size === 0) return world;
  const duties = world.duties.map((record, index) => {
    const watched = setting.dutyStates[index] as DutyState;
    const running = world.states[watched.item.id] === watched.state;
    if (running === record.running) return record;
    return running ? started(watched, record, now, place, sightings) : ended(watched, record, now, sightings);
  });
  const ages = world.ages.map((age, item) => (age && world.states[item] !== before[item] ? JUST_NOW : age));
  return { ...world, duties, ages };
}

function started(watched: DutyState, record: DutyRecord, now: number, place: string, sightings: Sightings): DutyRecord {
  const rest = Math.max(0, now - record.since);
  const runs = [...record.runs.slice(-mostRuns(watched)), { rest, length: 0 }];
  for (const duty of watched.duties) {
    const code = startBreaks(duty, runs);
    if (code) sightings.broke(code, place, watched.item.name);
  }
  return { running: true, since: now, begunAt: place, runs };
}

/** Runs before these make no difference to any of the duties. */
function mostRuns({ duties }: DutyState): number {
  return 1 + Math.max(1, ...duties.map((duty) => (duty.type === 'longest' ? 1 : duty.times)));
}

function startBreaks(duty: Duty, runs: DutyRecord['runs']): string | undefined {
  const newest = runs.length - 1;
  switch (duty.type) {
    case 'longest':
      return newest > 0 && duty.rest && (runs[newest]?.rest ?? 0) < duty.rest.valueOf() ? 'duty.short-rest' : undefined;
    case 'times-then-rest':
      return runsSinceRest(runs, duty.rest.valueOf()) > duty.times ? 'duty.too-often' : undefined;
    case 'times-in-window': {
      const first = newest - duty.times;
      return first >= 0 && fromStartToNewest(runs, first) < duty.window.valueOf() ? 'duty.too-often' : undefined;
    }
  }
}

/** The newest run and those before it with no rest of `rest` or more between. */
function runsSinceRest(runs: DutyRecord['runs'], rest: number): number {
  let count = 1;
  for (let index = runs.length - 1; index > 0 && (runs[index]?.rest ?? 0) < rest; index--) count++;
  return count;
}

function fromStartToNewest(runs: DutyRecord['runs'], first: number): number {
  return runs
    .slice(first, -1)
    .reduce((sum, run, offset) => sum + run.length + (runs[first + offset + 1]?.rest ?? 0), 0);
}

function ended(watched: DutyState, record: DutyRecord, now: number, sightings: Sightings): DutyRecord {
  const length = Math.max(0, now - record.since);
  tellLength(watched, record.begunAt, length, sightings);
  const runs = record.runs.map((run, index) => (index === record.runs.length - 1 ? { ...run, length } : run));
  return { ...record, running: false, since: now, runs };
}

/** Tells of a run that is longer than its duty allows. Whoever began it before the card is not blamed. */
export function tellLength({ item, duties }: DutyState, begunAt: string, length: number, sightings: Sightings): void {
  if (begunAt === '') return;
  for (const duty of duties) {
    if (duty.type !== 'longest') continue;
    if (isUnknown(length)) sightings.broke('duty.unbounded', begunAt, item.name);
    else if (length > duty.limit.valueOf()) sightings.broke('duty.too-long', begunAt, item.name);
  }
}

/** A run that has lasted too long has done so whether or not it ever ends. */
export function lookAtRunning(setting: Setting, world: World, now: number, sightings: Sightings): void {
  world.duties.forEach((record, index) => {
    if (record.running)
      tellLength(setting.dutyStates[index] as DutyState, record.begunAt, now - record.since, sightings);
  });
}

/** At a finish or stop a run that goes on is one that nothing ends. */
export function lookAtOpenRuns(setting: Setting, world: World, sightings: Sightings): void {
  world.duties.forEach((record, index) => {
    if (record.running) tellLength(setting.dutyStates[index] as DutyState, record.begunAt, UNKNOWN, sightings);
  });
}

/** The same world with its clocks set so that now is 0, and what no question can tell apart made equal. */
export function clocksAtZero(setting: Setting, world: World, now: number): World {
  if (setting.dutyStates.length + setting.timedItems.size === 0) return world;
  return {
    ...world,
    duties: world.duties.map((record, index) =>
      shortened(setting.dutyStates[index] as DutyState, record, now, setting.longestAsked),
    ),
  };
}

function shortened(watched: DutyState, record: DutyRecord, now: number, cap: number): DutyRecord {
  const elapsed = now - record.since;
  const clamped = record.running && isUnknown(elapsed) ? UNKNOWN : Math.min(elapsed, cap);
  const runs = record.runs
    .slice(-mostRuns(watched))
    .map((run) => ({ rest: Math.min(run.rest, cap), length: Math.min(run.length, cap) }));
  return { ...record, since: -clamped, runs };
}
