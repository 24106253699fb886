/** Which unit of the new card is which of the old one. */
import { diffArrays } from 'diff';
import { distance } from 'fastest-levenshtein';
import { munkres } from 'munkres';
import type { Unit } from './units.ts';

export interface Matched {
  readonly pairs: readonly (readonly [old: Unit, now: Unit])[];
  readonly gone: readonly Unit[];
  readonly added: readonly Unit[];
}

/** What stands as it was, in its order; then of the rest the pairs that are most alike. */
export function matchUnits(old: readonly Unit[], now: readonly Unit[]): Matched {
  const same = inCommon(old.map(keyOf), now.map(keyOf));
  const pairs = same.map(([from, to]): readonly [Unit, Unit] => [old[from] as Unit, now[to] as Unit]);
  const restOld = without(
    old,
    same.map(([from]) => from),
  );
  const restNow = without(
    now,
    same.map(([, to]) => to),
  );
  pairs.push(...mostAlike(restOld, restNow));
  const paired = new Set(pairs.flat());
  return {
    pairs,
    gone: old.filter((unit) => !paired.has(unit)),
    added: now.filter((unit) => !paired.has(unit)),
  };
}

/** The pairs whose order in the new card is not that of the old one; as few as explain it. */
export function movedPairs(pairs: Matched['pairs'], old: readonly Unit[], now: readonly Unit[]): Matched['pairs'] {
  const toNow = new Map(pairs);
  const before = old.flatMap((unit) => toNow.get(unit) ?? []);
  const paired = new Set(before);
  const after = now.filter((unit) => paired.has(unit));
  const still = new Set(inCommon(before, after).map(([, to]) => after[to]));
  return pairs.filter(([, unit]) => !still.has(unit));
}

/** The places of a longest row that both have in one order. */
function inCommon<Value>(old: readonly Value[], now: readonly Value[]): (readonly [from: number, to: number])[] {
  const places: [number, number][] = [];
  let [from, to] = [0, 0];
  for (const { added, removed, count } of diffArrays([...old], [...now])) {
    for (let index = 0; !added && !removed && index < count; index++) places.push([from + index, to + index]);
    if (!added) from += count;
    if (!removed) to += count;
  }
  return places;
}

function without(units: readonly Unit[], places: readonly number[]): Unit[] {
  const taken = new Set(places);
  return units.filter((_, index) => !taken.has(index));
}

const keyOf = ({ type, says, does }: Unit) => JSON.stringify([type, says, does]);

/** Less alike than this are two things: one is gone, and one is new. */
const mostUnlike = 0.6;

function mostAlike(old: readonly Unit[], now: readonly Unit[]): (readonly [Unit, Unit])[] {
  if (old.length === 0 || now.length === 0) return [];
  const costs = old.map((one) => now.map((other) => unlikeness(one, other)));
  return munkres(costs).flatMap(([from, to]) =>
    (costs[from]?.[to] ?? 1) <= mostUnlike ? [[old[from] as Unit, now[to] as Unit] as const] : [],
  );
}

/** From 0, the same, to 1, nothing in common. What a step works on counts more than its words. */
function unlikeness(one: Unit, other: Unit): number {
  if (one.type !== other.type) return 1;
  const length = Math.max(one.says.length, other.says.length);
  const words = length === 0 ? 0 : distance(one.says, other.says) / length;
  const all = new Set([...one.does, ...other.does]);
  // Short sentences share letters by chance: of steps that name no item more must be the same.
  if (all.size === 0) return one.type === 'step' ? Math.min(1, 1.5 * words) : words;
  const shared = one.does.filter((subject) => other.does.includes(subject)).length;
  return 0.7 * (1 - shared / all.size) + 0.3 * words;
}
