import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxUnclosed: FindingSort = {
  code: 'syntax.unclosed',
  level: 'error',
  notUnderstood: true,
  title: 'A brace or bracket that is not closed',
  help: {
    what: 'A block or a list was opened and is not closed.',
    why: 'What follows is read as part of it.',
    whatToDo: 'Write the closing sign where the block ends. The finding shows where it was opened.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
  //   ^ syntax.unclosed`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
}`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.unclosed'),
};
