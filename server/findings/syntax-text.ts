import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxText: FindingSort = {
  code: 'syntax.text',
  level: 'error',
  notUnderstood: true,
  title: 'A text that is not closed, or a stray brace in it',
  help: {
    what: 'A text has no closing quotation mark on its line, a { in it begins no name, or there is no name between { and }.',
    why: 'What comes after it is read as part of the text, or a reader finds a gap where the name of a thing should be.',
    whatToDo:
      'Write the closing mark. A longer text is written as several, one after the other. Write the name of an item or a gauge between braces. For a plain brace write {{.',
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
    {
      given: `kind hose { away "Put {} away", fitted "Fit {}" }
item hose-1 : hose "the wash hose"`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at {}." check hose-1 fitted
  //            ^^ syntax.text
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at {hose-1}." check hose-1 fitted
}`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.text'),
};
