/** Two records of one job, made on two tablets, as one. */
import type { Job, JobLine } from '../../shared/job.ts';
import { type Conflict, type Entry, marked, standing } from './entries.ts';
import { named } from './people.ts';
import { whereOf } from './record.ts';

export interface Merged {
  readonly entries: readonly Entry[];
  /** How many the other record has that this one had not. */
  readonly count: number;
  readonly conflicts: readonly Conflict[];
  /** One of either record, that say the same. */
  readonly same: readonly (readonly string[])[];
}

/** All entries of both, in the order of time; each record's own order stays, whatever its clock did. */
export function merged(job: Job, own: readonly Entry[], other: readonly Entry[]): Merged {
  const added = without(other, own);
  const timed = [...inTime(own), ...inTime(other).filter(({ entry }) => added.includes(entry))];
  const places = onBoth(
    byPlace(job, own, without(standing(own), other)),
    byPlace(
      job,
      other,
      standing(other).filter((entry) => added.includes(entry)),
    ),
  );
  return {
    entries: timed.sort((one, next) => one.at - next.at).map(({ entry }) => entry),
    count: added.length,
    conflicts: places.filter((place) => !isOne(place)).map(([here, there]) => [here.map(idOf), there.map(idOf)]),
    same: places
      .filter(isOne)
      .flatMap(([here, there]) =>
        here.slice(0, there.length).map((one, index) => [idOf(one), idOf(there[index] ?? one)]),
      ),
  };
}

/** Those of which somebody still has to say which count. */
export function openConflicts(entries: readonly Entry[]): readonly Conflict[] {
  const counting = new Set(marked(entries).flatMap(({ entry, undone }) => (undone ? [] : [entry.id])));
  const isOpen = (conflict: Conflict) => conflict.every((ids) => ids.some((id) => counting.has(id)));
  return entries.flatMap((entry) => (entry.type === 'read-in' ? entry.conflicts.filter(isOpen) : []));
}

function without(entries: readonly Entry[], others: readonly Entry[]): readonly Entry[] {
  const known = new Set(others.map(({ id }) => id));
  return entries.filter(({ id }) => !known.has(id));
}

function inTime(entries: readonly Entry[]): readonly { readonly at: number; readonly entry: Entry }[] {
  let at = Number.NEGATIVE_INFINITY;
  return entries.map((entry) => {
    at = Math.max(at, entry.at);
    return { at, entry };
  });
}

/** An entry, and what it says, whenever and on whichever tablet it was made. */
interface Said {
  readonly entry: Entry;
  readonly text: string;
}

const idOf = ({ entry }: Said) => entry.id;

type Place = readonly [own: readonly Said[], other: readonly Said[]];

/** Both say the same, or one has gone on from where the other stands. */
function isOne([here, there]: Place): boolean {
  const count = Math.min(here.length, there.length);
  const stood = Math.max(...[here, there].filter(({ length }) => length === count).map(lastAt));
  return (
    here.slice(0, count).every(({ text }, index) => text === there[index]?.text) &&
    [...here.slice(count), ...there.slice(count)].every(({ entry }) => entry.at >= stood)
  );
}

const lastAt = (side: readonly Said[]) => Math.max(...side.map(({ entry }) => entry.at));

/** The places at which both have done something, each without knowing of the other. */
function onBoth(own: ReadonlyMap<string, readonly Said[]>, other: typeof own): readonly Place[] {
  return [...own].flatMap(([place, here]): Place[] => {
    const there = other.get(place);
    return there === undefined ? [] : [[here, there]];
  });
}

/** Of these each record may have its own. */
const countsBeside: ReadonlySet<Entry['type']> = new Set(['read-in', 'settle', 'loaded', 'hand-over']);

/** `counting`: those entries of a record that are held against the other's. */
function byPlace(
  job: Job,
  entries: readonly Entry[],
  counting: readonly Entry[],
): ReadonlyMap<string, readonly Said[]> {
  const counts = new Set(counting);
  const rounds = new Map<string, number>();
  const found = named(entries).flatMap(({ entry, names }) => {
    if (!counts.has(entry) || countsBeside.has(entry.type)) return [];
    const place = 'move' in entry ? String(entry.move) : entry.type;
    const round = rounds.get(place) ?? 0;
    if (entry.type === 'tick' || entry.type === 'leave-out') rounds.set(place, round + 1);
    const line = 'line' in entry ? entry.line : Number.POSITIVE_INFINITY;
    return [{ place, round, line, entry, text: textOf(job, entry, names) }];
  });
  // In which order the lines of a step were entered is no difference.
  found.sort((one, next) => one.round - next.round || (one.line < next.line ? -1 : Number(one.line > next.line)));
  const places = new Map<string, Said[]>();
  for (const said of found) places.set(said.place, [...(places.get(said.place) ?? []), said]);
  return places;
}

/** Two runs are never taken for one: how often and how long something ran is what counts there. */
function textOf(job: Job, entry: Entry, names: readonly string[]): string {
  const { at, id: _id, ...happening } = entry;
  const own = 'from' in happening && entry.type !== 'hand-over' ? { ...happening, from: undefined } : happening;
  return JSON.stringify([whereOf(job, entry, names), own, hasClock(job, entry) && at]);
}

function hasClock({ moves }: Job, entry: Entry): boolean {
  const unit = 'move' in entry ? moves[entry.move] : undefined;
  return unit?.type === 'unit' && unit.lines.some(isTimed);
}

function isTimed(line: JobLine): boolean {
  switch (line.type) {
    case 'run':
    case 'wait':
      return true;
    case 'do':
      return line.uses !== undefined || line.rests !== undefined;
    case 'reading':
      return line.within !== undefined;
    default:
      return false;
  }
}
