import type { FindingSort } from './finding.ts';
import { admonish, beginning } from './support/hazards.ts';
import { foundOn } from './support/words.ts';

export const safetyWarningMissing: FindingSort = {
  code: 'safety.warning-missing',
  level: 'error',
  title: 'A hazard begins and nobody was warned of it',
  help: {
    what: 'On some path a hazard begins, and no admonition for it, of its level or a higher one, is shown before.',
    why: 'Whoever stands there learns of the hazard by meeting it.',
    whatToDo: 'Write the admonition (“warning NAME”) before the step at which the hazard begins.',
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
  //   ^ safety.warning-missing
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
    const missing = proof.hazards.filter(({ late }) => !late);
    for (const begins of missing) {
      yield foundOn(
        begins,
        `${beginning(begins.hazard)} here, and no ${begins.hazard.level} for it is shown before. Write “${begins.hazard.level} ${begins.hazard.name}” before this step.`,
        { fixes: [admonish(begins, textOf, missing)] },
      );
    }
  },
};
