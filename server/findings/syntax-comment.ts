import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxComment: FindingSort = {
  code: 'syntax.comment',
  level: 'error',
  notUnderstood: true,
  title: 'A comment that is never closed',
  help: {
    what: 'A comment begins with /* and has no */.',
    why: 'It is read to the end of its line, so that the rest of the card is still looked at.',
    whatToDo: 'Write */ where the comment ends, or // for a comment of one line.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose." /* on the left
  //                       ^ syntax.comment
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose." // on the left
}`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.comment'),
};
