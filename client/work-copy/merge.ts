/** Two records of one job, made on two tablets, as one. */
import { type Conflict, type Entry, marked, standing } from './entries.ts';

export interface Merged {
  readonly entries: readonly Entry[];
  /** How many the other record has that this one had not. */
  readonly count: number;
  readonly conflicts: readonly Conflict[];
}

/** All entries of both, in the order of time; each record's own order stays, whatever its clock did. */
export function merged(own: readonly Entry[], other: readonly Entry[]): Merged {
  const added = without(other, own);
  const timed = [...inTime(own), ...inTime(other).filter(({ entry }) => added.includes(entry))];
  return {
    entries: timed.sort((one, next) => one.at - next.at).map(({ entry }) => entry),
    count: added.length,
    conflicts: conflictsOf(
      without(standing(own), other),
      standing(other).filter((entry) => added.includes(entry)),
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

/** What both have done at one place, each without knowing of the other. */
function conflictsOf(own: readonly Entry[], other: readonly Entry[]): readonly Conflict[] {
  const [here, there] = [byPlace(own), byPlace(other)];
  return [...here].flatMap(([place, entries]): Conflict[] => {
    const others = there.get(place) ?? [];
    const isSame = place === 'head' && JSON.stringify(entries.map(said)) === JSON.stringify(others.map(said));
    return others.length === 0 || isSame ? [] : [[entries.map(({ id }) => id), others.map(({ id }) => id)]];
  });
}

/** Of these each record may have its own. */
const countsBeside: ReadonlySet<Entry['type']> = new Set(['read-in', 'settle', 'loaded', 'hand-over']);

function byPlace(entries: readonly Entry[]): ReadonlyMap<string, readonly Entry[]> {
  const places = new Map<string, Entry[]>();
  for (const entry of entries) {
    if (countsBeside.has(entry.type)) continue;
    const place = 'move' in entry ? String(entry.move) : entry.type;
    places.set(place, [...(places.get(place) ?? []), entry]);
  }
  return places;
}

/** What an entry says, whenever and wherever it was made. */
function said({ at: _at, id: _id, ...happening }: Entry): unknown {
  return happening;
}
