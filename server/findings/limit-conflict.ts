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

/** A bound, with its ends as plain numbers in the unit of its gauge. */
interface Figure {
  readonly bound: Bound;
  readonly low: number | undefined;
  readonly high: number | undefined;
}

const sides = ['low', 'high'] as const;

function* copiedBounds({ files }: WorkspaceFacts): Iterable<Found> {
  // By gauge and sort, and among those by what they say: what is the same everywhere is there once.
  const seen = new Map<string, Map<string, Figure>>();
  for (const measured of files.flatMap(({ bound }) => bound.cards).flatMap((card) => [...writtenBounds(card)])) {
    if (faultOf(measured)) continue;
    const { gauge, bound } = measured;
    const key = `${keyOf(gauge.place)} ${bound.form}`;
    const others = seen.get(key) ?? new Map<string, Figure>();
    seen.set(key, others);
    const figure = figureOf(measured);
    const other = firstSlip(others, figure, gauge)?.bound;
    const words = boundWords(bound, 'symbol');
    if (!others.has(words)) others.set(words, figure);
    if (!other) continue;
    const otherWords = boundWords(other, 'symbol');
    yield {
      place: bound.place,
      message: `${boundWords(bound)} here, and ${boundWords(other)} elsewhere for ${gauge.label}. Make the two equal, or name the limit.`,
      path: [pathPlace(other.place, `${boundWords(other)} stands here`)],
      fixes: [{ title: `Change to ${otherWords}`, edits: [replace(bound.place, otherWords)] }],
    };
  }
}

function figureOf({ bound, gauge }: MeasuredBound): Figure {
  const [low, high] = sides.map((side) => bound[side] && inUnit(bound[side], gauge).valueOf());
  return { bound, low, high };
}

function firstSlip(others: ReadonlyMap<string, Figure>, figure: Figure, gauge: Gauge): Figure | undefined {
  for (const other of others.values()) if (sides.some((side) => isSlip(other, figure, side, gauge))) return other;
  return undefined;
}

function isSlip(a: Figure, b: Figure, side: 'low' | 'high', gauge: Gauge): boolean {
  if (!mayBeNear(a[side], b[side])) return false;
  const first = a.bound[side];
  const second = b.bound[side];
  return (
    first !== undefined &&
    second !== undefined &&
    nearlyEqual(inUnit(first, gauge), inUnit(second, gauge)) &&
    !isConverted(first, second, gauge)
  );
}

/** Rules out most pairs before their exact figures are compared, which takes a thousand times as long. */
function mayBeNear(a: number | undefined, b: number | undefined): boolean {
  return a !== undefined && b !== undefined && Math.abs(a - b) <= 0.051 * Math.max(Math.abs(a), Math.abs(b));
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
