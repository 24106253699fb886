import { getOrInsert } from '../../shared/maps.ts';
import type { FindingSort, Found, WorkspaceFacts } from './finding.ts';
import { type DeclaredLimit, type End, inUnitOf, placeKey, quantityOf, type WrittenBound } from './support/across.ts';
import { replace } from './support/edits.ts';
import { isRoundedFrom, nearlyEqual } from './support/limits.ts';
import { pathPlace } from './support/words.ts';

export const limitConflict: FindingSort = {
  code: 'limit.conflict',
  level: 'warning',
  title: 'Two figures that were meant to be one',
  help: {
    what: 'Two bounds of the same sort that are written out for one gauge differ by less than a twentieth; or one limit of one gauge has two values in the files that are looked at together.',
    why: 'A figure was copied, and then one of the copies was changed or mistyped.',
    whatToDo: 'Make the two equal. Better: name the figure as a limit of the gauge, and write “in” with its name.',
  },
  sources: [],
  examples: [
    {
      bad: `gauge pressure "wash pressure" in psi
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at least 40 psi
  step read pressure at least 41 psi
  //                 ^^^^^^^^^^^^^^^ limit.conflict
}`,
      good: `gauge pressure "wash pressure" in psi { limit spray at least 40 psi }
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure in spray
  step read pressure in spray
}`,
    },
  ],
  *inWorkspace(facts) {
    yield* copiedBounds(facts);
    yield* twoValues(facts);
  },
};

const sides = ['low', 'high'] as const;

function* copiedBounds({ files }: WorkspaceFacts): Iterable<Found> {
  // By gauge and sort, and among those by what they say: what is the same everywhere is there once.
  const seen = new Map<string, Map<string, WrittenBound>>();
  for (const bound of files.flatMap(({ bounds }) => bounds)) {
    const key = `${placeKey(bound.gauge.place)} ${bound.form}`;
    const others = getOrInsert(seen, key, () => new Map());
    const other = firstSlip(others, bound);
    if (!others.has(bound.written)) others.set(bound.written, bound);
    if (!other) continue;
    yield {
      place: bound.place,
      message: `${bound.words} here, and ${other.words} elsewhere for ${bound.gauge.label}. Make the two equal, or name the limit.`,
      path: [pathPlace(other.place, `${other.words} stands here`)],
      fixes: [{ title: `Change to ${other.written}`, edits: [replace(bound.place, other.written)] }],
    };
  }
}

function firstSlip(others: ReadonlyMap<string, WrittenBound>, bound: WrittenBound): WrittenBound | undefined {
  for (const other of others.values()) if (sides.some((side) => isSlip(other, bound, side))) return other;
  return undefined;
}

function isSlip(a: WrittenBound, b: WrittenBound, side: 'low' | 'high'): boolean {
  const [first, second] = [a[side], b[side]];
  return first !== undefined && second !== undefined && areNear(a.gauge, first, second) && !isConverted(a, b, side);
}

/** Exact figures, which take a thousand times as long, are compared only where it is a close thing. */
function areNear(gauge: WrittenBound['gauge'], a: End, b: End): boolean {
  if (a.value === b.value && a.unit === b.unit) return false;
  const apart = Math.abs(a.near - b.near) / Math.max(Math.abs(a.near), Math.abs(b.near));
  if (apart > 0.051) return false;
  if (apart > 0.001 && apart < 0.049) return true;
  return nearlyEqual(inUnitOf(gauge, a), inUnitOf(gauge, b));
}

/** A figure that was converted to another unit and rounded is no slip. */
function isConverted({ gauge, ...first }: WrittenBound, second: WrittenBound, side: 'low' | 'high'): boolean {
  const [a, b] = [first[side], second[side]];
  if (!a || !b || a.unit === b.unit) return false;
  const [one, other] = [quantityOf(a), quantityOf(b)];
  return isRoundedFrom(one, other, gauge.sense) || isRoundedFrom(other, one, gauge.sense);
}

function* twoValues({ files }: WorkspaceFacts): Iterable<Found> {
  const first = new Map<string, DeclaredLimit>();
  for (const limit of files.flatMap(({ limits }) => limits)) {
    const key = JSON.stringify([limit.gauge, limit.label, limit.name]);
    const other = first.get(key);
    if (!other) first.set(key, limit);
    else if (placeKey(other.place) !== placeKey(limit.place) && limit.values !== other.values) {
      yield {
        place: limit.place,
        message: `The limit ${limit.name} of ${limit.label} has another value elsewhere. Keep one, in a file that both use.`,
        path: [pathPlace(other.place, 'it has another value here')],
      };
    }
  }
}
