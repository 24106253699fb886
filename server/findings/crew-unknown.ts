import type { FindingSort } from './finding.ts';
import { changeTo, didYouMean, problemsOf } from './support/problems.ts';

export const crewUnknown: FindingSort = {
  code: 'crew.unknown',
  level: 'error',
  notUnderstood: true,
  title: 'A role that the card has not got',
  help: {
    what: 'A step, a lane or a signature names a role that is not in the “crew” of the card. In a procedure the roles are those of the card that does it.',
    why: 'Nobody will feel meant.',
    whatToDo: 'Correct the name, or add the role to the crew.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew cockpit "Cockpit", ground "Ground"
  step by cockpit "Look at the gauge."
  step by grund "Look at the hose."
  //      ^^^^^ crew.unknown
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew cockpit "Cockpit", ground "Ground"
  step by cockpit "Look at the gauge."
  step by ground "Look at the hose."
}`,
    },
  ],
  *inFile({ bound }) {
    for (const { place, name, near, done } of problemsOf(bound, 'unknown-role')) {
      const message = done
        ? `“${done}” speaks of the role “${name}”, which this card has not got. Add it to the crew.`
        : `This card has no role “${name}”. ${didYouMean(near, 'Add it to the crew, or correct the name.')}`;
      yield { place, message, fixes: done ? [] : changeTo(place, near) };
    }
  },
};
