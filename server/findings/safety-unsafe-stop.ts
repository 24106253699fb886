import type { Hazard } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { FindingSort } from './finding.ts';
import { bringAboutWhenStopped, type MendedCard } from './support/mends.ts';
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
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }`,
      bad: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  //   ^ safety.unsafe-stop
  step set power-cart stopped
}`,
      good: `card power "Power" {
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
  *inCard(facts) {
    for (const fact of facts.proof.unsafeStops) {
      const fix = endHazard(fact.hazard, facts);
      yield foundOn(
        fact,
        `After a stop here there can still be ${fact.hazard.label}. Write a stage “when stopped” that puts an end to it.`,
        fix ? { fixes: [fix] } : {},
      );
    }
  },
};

/** Brings the hazard's item back when the card stops, where one item alone makes the hazard. */
function endHazard({ condition }: Hazard, facts: MendedCard): Fix | undefined {
  if (
    condition.type !== 'state' ||
    condition.item.normally === undefined ||
    condition.item.normally === condition.state
  )
    return undefined;
  return bringAboutWhenStopped([{ item: condition.item, state: condition.item.normally }], facts);
}
