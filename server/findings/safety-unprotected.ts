import type { FindingSort } from './finding.ts';
import { protectFirst } from './support/hazards.ts';
import { foundOn, unmetInWords } from './support/words.ts';

export const safetyUnprotected: FindingSort = {
  code: 'safety.unprotected',
  level: 'error',
  title: 'A hazard is there and its protection is not',
  help: {
    what: 'On some path a hazard is active while the condition of its “protect” does not hold.',
    why: 'The warning alone protects nobody: the card must say when the protection goes on, and keep it on.',
    whatToDo: 'Put the protection on before the hazard begins, and take it off after it has ended.',
  },
  sources: [],
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
kind worn { away "Take off {}", on "Put on {}" }
item power-cart : cart "the power cart" normally stopped
item ear-defenders : worn "ear defenders" normally away
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." protect ear-defenders on }`,
      bad: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  //   ^ safety.unprotected
  step set power-cart stopped
}`,
      good: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set ear-defenders on
  step set power-cart running
  step set power-cart stopped
  step set ear-defenders away
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of facts.proof.unprotected) {
      const fix = protectFirst(fact, facts);
      const reasons = fact.unmet.map(unmetInWords).join(', and ');
      yield foundOn(
        fact,
        `There can be ${fact.hazard.label} from here, without protection: ${reasons || 'what protects does not hold'}. Protect first.`,
        fix ? { fixes: [fix] } : {},
      );
    }
  },
};
