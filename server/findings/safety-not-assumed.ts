import type { FindingSort } from './finding.ts';
import { stateName } from './support/card.ts';
import { bringAboutBefore } from './support/mends.ts';
import { toSet } from './support/needed.ts';
import { foundOn, stateNames } from './support/words.ts';

export const safetyNotAssumed: FindingSort = {
  code: 'safety.not-assumed',
  level: 'error',
  title: 'A card is done where what it assumes may not hold',
  help: {
    what: 'A card that is done from another assumes a state, and on some path that state is not sure where it is called.',
    why: 'The called card was proved for its assumption and for nothing else.',
    whatToDo: 'Set or check the state before the “do”.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"`,
      bad: `card drained "With the drain open" {
  number "1" revision "A" crew mechanic "Mechanic"
  assume drain open
  step check drain open
}
card wash "Wash" {
  number "2" revision "A" crew mechanic "Mechanic"
  do drained
//^ safety.not-assumed
}`,
      good: `card drained "With the drain open" {
  number "1" revision "A" crew mechanic "Mechanic"
  assume drain open
  step check drain open
}
card wash "Wash" {
  number "2" revision "A" crew mechanic "Mechanic"
  step set drain open
  do drained
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of facts.proof.notAssumed) {
      const { item, state, possible } = fact;
      const wrong = stateNames(
        item,
        possible.filter((one) => one !== state),
      );
      const fix = bringAboutBefore(fact.place, toSet([{ item, state }]), facts);
      yield foundOn(
        fact,
        `The card that is done here assumes ${item.label} to be ${stateName(item, state)}; that may be ${wrong} here. Set or check it before.`,
        fix ? { fixes: [fix] } : {},
      );
    }
  },
};
