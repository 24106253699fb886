import type { FindingSort } from './finding.ts';
import { admonish, beginning } from './support/hazards.ts';
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
  *inCard({ proof, textOf }) {
    for (const begins of proof.hazards) {
      if (!begins.late) continue;
      yield foundOn(
        begins,
        `${beginning(begins.hazard)} here, and its ${begins.hazard.level} comes only later. Move “${begins.hazard.level} ${begins.hazard.name}” before this step.`,
        {
          path: [...begins.path, pathPlace(begins.late, `the ${begins.hazard.level} comes only here`)],
          fixes: [admonish(begins, textOf)],
        },
      );
    }
  },
};
