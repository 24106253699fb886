import type { Fix } from '../../shared/finding.ts';
import { everything, leftOut } from '../../shared/interval.ts';
import type { Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { scaleOf } from './support/limits.ts';
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
    for (const row of branchRows(card)) yield* gapsIn(row);
  },
  *inFile({ file, bound }) {
    for (const row of limitRows(file, bound.equipment)) yield* gapsIn(row);
  },
};

function* gapsIn(row: GaugeRow) {
  const { gauge, bounds, place, end } = row;
  const whole = scaleOf(gauge) ?? everything;
  const gaps = leftOut(
    whole,
    bounds.map((bound) => bound.interval),
  );
  // Without a scale nobody knows how far the gauge goes: then only what lies between two branches is left out.
  const known = gaps.filter(({ low, high }) => gauge.reads || (low && high));
  if (known.length === 0) return;
  const stretches = known.map((gap) => stretchWords(gap, row)).join(', or ');
  yield {
    place,
    message: `No branch says what to do when ${gauge.label} is ${stretches}. Let the bounds meet, or write a last else.`,
    fixes: end ? [stopThere(end, `${gauge.label} is ${stretches}`)] : [],
  };
}

/** What nobody has thought of stops the work: anything else is for the writer to say. */
function stopThere({ file, end }: Place, what: string): Fix {
  const written = `else { stop ${JSON.stringify(`Report that ${what}.`)} }`;
  return { title: `Insert: ${written}`, edits: [{ place: { file, start: end, end }, newText: ` ${written}` }] };
}
