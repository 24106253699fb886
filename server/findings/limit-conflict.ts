import type { Bound, Gauge, Limit } from '../../shared/card.ts';
import type { Exact } from '../../shared/exact.ts';
import { equalIntervals } from '../../shared/interval.ts';
import { boundWords, convert, senseOf } from '../../shared/quantity.ts';
import type { Place } from '../../shared/text.ts';
import type { Quantity } from '../../shared/units.ts';
import type { FindingSort, Found, WorkspaceFacts } from './finding.ts';
import { replace } from './support/edits.ts';
import { boundsOf, faultOf, isRoundedFrom, type MeasuredBound, nearlyEqual, writtenBounds } from './support/limits.ts';
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

function* copiedBounds({ files }: WorkspaceFacts): Iterable<Found> {
  const seen = new Map<string, MeasuredBound[]>();
  for (const measured of files.flatMap(({ bound }) => bound.cards).flatMap((card) => [...writtenBounds(card)])) {
    if (faultOf(measured)) continue;
    const key = keyOf(measured.gauge.place);
    const others = seen.get(key) ?? [];
    seen.set(key, [...others, measured]);
    const other = others.find(({ bound }) => isSlip(bound, measured.bound, measured.gauge));
    if (!other) continue;
    const words = boundWords(other.bound, 'symbol');
    yield {
      place: measured.bound.place,
      message: `${boundWords(measured.bound)} here, and ${boundWords(other.bound)} elsewhere for ${measured.gauge.label}. Make the two equal, or name the limit.`,
      path: [pathPlace(other.bound.place, `${boundWords(other.bound)} stands here`)],
      fixes: [{ title: `Change to ${words}`, edits: [replace(measured.bound.place, words)] }],
    };
  }
}

function isSlip(a: Bound, b: Bound, gauge: Gauge): boolean {
  if (a.form !== b.form || keyOf(a.place) === keyOf(b.place)) return false;
  return (['low', 'high'] as const).some((side) => {
    const first = a[side];
    const second = b[side];
    return (
      first && second && nearlyEqual(inUnit(first, gauge), inUnit(second, gauge)) && !isConverted(first, second, gauge)
    );
  });
}

/** A figure that was converted to another unit and rounded is no slip. */
function isConverted(a: Quantity, b: Quantity, gauge: Gauge): boolean {
  const sense = senseOf(gauge);
  return a.unit !== b.unit && (isRoundedFrom(a, b, sense) || isRoundedFrom(b, a, sense));
}

/** In the unit of the gauge, so that a twentieth of a temperature is one of the figure that is read. */
function inUnit(end: Quantity, gauge: Gauge): Exact {
  return convert(end, gauge.unit, senseOf(gauge)).value;
}

function* twoValues({ files }: WorkspaceFacts): Iterable<Found> {
  const first = new Map<string, Limit>();
  for (const limit of limitsDeclared(files)) {
    const key = JSON.stringify([limit.gauge.name, limit.gauge.label, limit.name]);
    const other = first.get(key);
    if (!other) first.set(key, limit);
    else if (keyOf(other.place) !== keyOf(limit.place) && !sameValues(limit, other)) {
      yield {
        place: limit.place,
        message: `The limit ${limit.name} of ${limit.gauge.label} has another value elsewhere. Keep one, in a file that both use.`,
        path: [pathPlace(other.place, 'it has another value here')],
      };
    }
  }
}

/** Each limit once, in the order of the files. */
function* limitsDeclared(files: WorkspaceFacts['files']): Iterable<Limit> {
  for (const { file, bound } of files) {
    for (const limit of bound.equipment.gauges.flatMap((gauge) => gauge.limits))
      if (limit.place.file === file) yield limit;
  }
}

function sameValues(a: Limit, b: Limit): boolean {
  const [left, right] = [boundsOf(a), boundsOf(b)];
  return (
    left.length === right.length &&
    left.every((bound, index) => equalIntervals(bound.interval, (right[index] as Bound).interval))
  );
}

function keyOf({ file, start }: Place): string {
  return `${file}\n${start}`;
}
