import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxText: FindingSort = {
  code: 'syntax.text',
  level: 'error',
  title: 'A text that is not closed, or a stray brace in it',
  help: {
    what: 'A text has no closing quotation mark on its line, or a { in it begins no name.',
    why: 'What comes after it is read as part of the text.',
    whatToDo:
      'Write the closing mark. A longer text is written as several, one after the other. For a plain brace write {{.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose.
  //   ^^^^^^^^^^^^^^^^^^ syntax.text
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
}`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.text'),
};
