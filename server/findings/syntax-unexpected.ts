import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxUnexpected: FindingSort = {
  code: 'syntax.unexpected',
  level: 'error',
  notUnderstood: true,
  title: 'Something that cannot stand here',
  help: {
    what: 'A word or sign stands where the sentence before it is complete, or wants something else.',
    why: 'It is passed over, so the card says less than it seems to.',
    whatToDo: 'Delete it or write what was meant. The finding shows how the sentence is written in full.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
}
  }
//^ syntax.unexpected`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
}`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.unexpected'),
};
