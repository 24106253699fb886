import type { FindingSort } from './finding.ts';
import { foundOn } from './support/words.ts';

export const safetyUnsafeStop: FindingSort = {
  code: 'safety.unsafe-stop',
  level: 'warning',
  title: 'The card can stop with a hazard still there',
  help: {
    what: 'A written stop, or a check that fails without an else, ends the card while a hazard is active. Each hazard is reported once a card, at the first such place.',
    why: 'A card that just ends leaves the crew beside a running machine with no next line to read.',
    whatToDo: 'Write a stage “when stopped” that makes the machine safe: every stop goes through it.',
  },
  sources: [],
  examples: [
    {
      bad: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }
card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  //   ^ safety.unsafe-stop
  step set power-cart stopped
}`,
      good: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }
card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  step set power-cart stopped
  stage "Make safe" when stopped {
    step set power-cart stopped
  }
}`,
    },
  ],
  *inCard({ proof }) {
    for (const fact of proof.unsafeStops) {
      yield foundOn(
        fact,
        `The card can stop here while there is still ${fact.hazard.label}. Write a stage “when stopped” that ends it.`,
      );
    }
  },
};
