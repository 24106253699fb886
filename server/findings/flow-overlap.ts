import { compareHighs, compareLows, type Interval, intersection, isEmpty, isWithin } from '../../shared/interval.ts';
import type { FindingSort } from './finding.ts';
import { branchRows, type GaugeRow, limitRows, stretchWords } from './support/rows.ts';

export const flowOverlap: FindingSort = {
  code: 'flow.overlap',
  level: 'warning',
  title: 'Two branches on a gauge share values',
  help: {
    what: 'Two branches in a row on one gauge share values, and neither lies within the other. So do two rows of a limit that depends on another gauge.',
    why: 'At those values two lines of the card apply, and which is followed depends on which is read first.',
    whatToDo: 'End one where the other begins: “at most 20 psi”, then “above 20 psi”.',
  },
  sources: [],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi { reads 0 to 100 by 2 }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  if pressure at most 60 psi { step "Open the tap." }
//^ flow.overlap
  else if pressure at least 40 psi { step "Close the tap." }
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  if pressure at most 60 psi { step "Open the tap." }
  else if pressure above 60 psi { step "Close the tap." }
}`,
    },
  ],
  *inCard({ card }) {
    for (const row of branchRows(card)) yield* overlapsIn(row, false);
  },
  *inFile({ file, bound }) {
    for (const row of limitRows(file, bound.equipment)) yield* overlapsIn(row, true);
  },
};

/** The rows of a limit share nothing at all; of two branches one may be a special case within the other. */
function* overlapsIn(row: GaugeRow, nestedToo: boolean) {
  const { gauge, bounds, place } = row;
  const shared = firstOverlap(
    bounds.map(({ interval }) => interval),
    nestedToo,
  );
  if (!shared) return;
  yield {
    place,
    message: `Two branches say what to do when ${gauge.label} is ${stretchWords(shared, row)}. End one where the other begins.`,
  };
}

/** The lowest stretch that two of them share; one that lies within another counts only where `nestedToo` says so. */
function firstOverlap(intervals: readonly Interval[], nestedToo: boolean): Interval | undefined {
  const rising = intervals
    .filter((one) => !isEmpty(one))
    .sort((a, b) => compareLows(a.low, b.low) || compareHighs(b.high, a.high));
  /** Those that reach to where the next one begins, each within the one before it. */
  const around: Interval[] = [];
  for (const next of rising) {
    let inner = around.at(-1);
    while (inner && isEmpty(intersection(inner, next))) {
      around.pop();
      inner = around.at(-1);
    }
    if (inner && (nestedToo || !isWithin(next, inner))) return intersection(inner, next);
    around.push(next);
  }
  return undefined;
}
