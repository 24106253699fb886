import type { Bound } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { compareHighs, compareLows, type Interval, intersection, isEmpty, isWithin } from '../../shared/interval.ts';
import { quantityWords } from '../../shared/quantity.ts';
import { holds } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { alikeIn } from './support/names.ts';
import { branchRows, type GaugeRow, limitRows, stretchWords } from './support/rows.ts';

export const flowOverlap: FindingSort = {
  code: 'flow.overlap',
  level: 'warning',
  reads: ['bounds'],
  title: 'Two branches on a gauge share values',
  help: {
    what: 'Two branches of one “if … else if …” on one gauge share values, and neither lies within the other. So do two rows of a limit that depends on another gauge.',
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
    const rows = [...branchRows(card)];
    const fixes = alikeIn(rows, endWhereTheOtherBegins);
    for (const row of rows) yield* overlapsIn(row, false, fixes);
  },
  *inFile({ file, bound }) {
    for (const row of limitRows(file, bound.equipment)) yield* overlapsIn(row, true);
  },
};

/** The rows of a limit share nothing at all; of two branches one may be a special case within the other. */
function* overlapsIn(row: GaugeRow, nestedToo: boolean, fixes: (row: GaugeRow) => Fix[] = () => []) {
  const { gauge, bounds, place } = row;
  const shared = firstOverlap(
    bounds.map(({ interval }) => interval),
    nestedToo,
  );
  if (!shared) return;
  yield {
    place,
    message: `Two branches say what to do when ${gauge.label} is ${stretchWords(shared, row)}. End one where the other begins.`,
    fixes: fixes(row),
  };
}

/** Of two branches in a row that look to opposite sides, the second takes what the first leaves. */
function endWhereTheOtherBegins({ bounds, branches }: GaugeRow): Fix[] {
  const [first, second, ...others] = bounds;
  if (!first || !second || others.length > 0 || !branches) return [];
  const written = whatIsLeftBy(first);
  const isInBranch = holds(branches.place, second.place);
  if (!written || !isInBranch || sides[first.form] === sides[second.form] || !(second.form in sides)) return [];
  return [{ title: `Change the second to: ${written}`, edits: [replace(second.place, written)] }];
}

const sides: Partial<Record<Bound['form'], 'low' | 'high'>> = {
  'at least': 'low',
  above: 'low',
  'at most': 'high',
  below: 'high',
};

const opposite: Partial<Record<Bound['form'], string>> = {
  'at least': 'below',
  above: 'at most',
  'at most': 'above',
  below: 'at least',
};

function whatIsLeftBy({ form, low, high }: Bound): string | undefined {
  const end = low ?? high;
  return opposite[form] && end && `${opposite[form]} ${quantityWords(end)}`;
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
