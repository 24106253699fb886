import type { Card, Gauge, If } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { everything, leftOut } from '../../shared/interval.ts';
import type { FindingSort } from './finding.ts';
import { scaleOf } from './support/limits.ts';
import { alikeIn, everyOne, nameIn } from './support/names.ts';
import { branchRows, type GaugeRow, limitRows, stretchWords } from './support/rows.ts';

export const flowGap: FindingSort = {
  code: 'flow.gap',
  level: 'warning',
  reads: ['bounds'],
  title: 'Branches on a gauge leave a value out',
  help: {
    what: 'The branches of one “if … else if …” ask for the same gauge, there is no last else, and a value that the gauge can show is in none of them. So are the rows of a limit that depends on another gauge.',
    why: 'At that value the card says nothing, and the reader goes on as if nothing were to be done.',
    whatToDo: 'Let the bounds meet (“at most 20 psi”, “above 20 psi”), or write a last else.',
  },
  sources: [],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi { reads 0 to 100 by 2 }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  if pressure at most 40 psi { step "Open the tap." }
//^ flow.gap
  else if pressure above 60 psi { step "Close the tap." }
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  if pressure at most 40 psi { step "Open the tap." }
  else if pressure above 60 psi { step "Close the tap." }
  else { step "Note that the pressure is right." }
}`,
    },
  ],
  *inCard({ card }) {
    const rows = [...branchRows(card)];
    const fixes = alikeIn(rows, (row) => stopThere(row, card));
    for (const row of rows) yield* gapsIn(row, fixes);
  },
  *inFile({ file, bound }) {
    for (const row of limitRows(file, bound.equipment)) yield* gapsIn(row);
  },
};

function* gapsIn(row: GaugeRow, fixes: (row: GaugeRow) => Fix[] = () => []) {
  const stretches = stretchesLeftOut(row);
  if (stretches === undefined) return;
  yield {
    place: row.place,
    message: `No branch says what to do when ${row.gauge.label} is ${stretches}. Let the bounds meet, or write a last else.`,
    fixes: fixes(row),
  };
}

function stretchesLeftOut(row: GaugeRow): string | undefined {
  const { gauge, bounds } = row;
  const gaps = leftOut(
    scaleOf(gauge) ?? everything,
    bounds.map((bound) => bound.interval),
  );
  // Without a scale nobody knows how far the gauge goes: then only what lies between two branches is left out.
  const known = gaps.filter(({ low, high }) => gauge.reads || (low && high));
  return known.length === 0 ? undefined : known.map((gap) => stretchWords(gap, row)).join(', or ');
}

/** What nobody has thought of stops the work: anything else is for the writer to say. */
function stopThere(row: GaugeRow, card: Card): Fix[] {
  const { gauge, branches } = row;
  const stretches = stretchesLeftOut(row);
  if (!branches || stretches === undefined) return [];
  const written = `else { stop ${JSON.stringify(`Report that ${labelIn(gauge, branches, card)} is ${stretches}.`)} }`;
  const { file, end } = branches.place;
  return [{ title: `Insert: ${written}`, edits: [{ place: { file, start: end, end }, newText: ` ${written}` }] }];
}

/** What a text there says for a gauge: of one that is another in another call, the name in braces. */
function labelIn(gauge: Gauge, branches: If, card: Card): string {
  const here = everyOne(card, branches).filter(({ statement }) => statement === branches);
  const name = nameIn(gauge, here);
  return name !== undefined && here.some(({ names }) => names.has(name)) ? `{${name}}` : gauge.label;
}
