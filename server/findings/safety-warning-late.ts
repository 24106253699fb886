import type { Card } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { HazardBegins } from '../proof/questions/hazard-begins.ts';
import type { FindingSort } from './finding.ts';
import { insertBefore, remove, type TextOf } from './support/edits.ts';
import { admonish, beginning } from './support/hazards.ts';
import { statementAt } from './support/where.ts';
import { foundOn, pathPlace } from './support/words.ts';

export const safetyWarningLate: FindingSort = {
  code: 'safety.warning-late',
  level: 'error',
  title: 'The warning of a hazard comes after it has begun',
  help: {
    what: 'A hazard begins, and its admonition comes only later on the path.',
    why: 'A warning that is read when the hazard is there already protects nobody.',
    whatToDo: 'Move the admonition up, before the step at which the hazard begins.',
  },
  sources: [
    {
      title: "DOE-STD-1029-92, Writer's Guide for Technical Procedures: warnings and cautions stand before the step",
      status: 'from memory',
    },
  ],
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }`,
      bad: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set power-cart running
  //   ^ safety.warning-late
  warning noise
  step set power-cart stopped
}`,
      good: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step set power-cart stopped
}`,
    },
  ],
  *inCard({ card, proof, textOf }) {
    for (const begins of proof.hazards) {
      if (!begins.late) continue;
      yield foundOn(
        begins,
        `${beginning(begins.hazard)} here, and its ${begins.hazard.level} comes only later. Move “${begins.hazard.level} ${begins.hazard.name}” before this step.`,
        {
          path: [pathPlace(begins.late, `the ${begins.hazard.level} comes only here`)],
          fixes: moveUp(begins, begins.late, card, textOf),
        },
      );
    }
  },
};

/** The admonition as it stands, before the step at which the hazard begins; where it stands in another file, another one there. */
function moveUp(begins: HazardBegins, late: Place, card: Card, textOf: TextOf): Fix[] {
  const { hazard, statement } = begins;
  const said = statementAt(card, late);
  if (said?.type !== 'admonition' || said.place.file !== statement.file) return [admonish(begins, textOf)];
  const written = textOf(said.place.file).slice(said.place.start, said.place.end);
  const title = `Move “${hazard.level} ${hazard.name}” before this step`;
  return [
    { title, edits: [insertBefore(statement, written, textOf), remove(said.place, textOf)] },
    admonish(begins, textOf),
  ];
}
