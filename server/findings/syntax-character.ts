import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxCharacter: FindingSort = {
  code: 'syntax.character',
  level: 'error',
  notUnderstood: true,
  title: 'A sign that means nothing here',
  help: {
    what: 'A sign stands outside a text that the language has no use for: a typographic quotation mark, a semicolon, a dash from a word processor.',
    why: 'It often comes with text that was pasted, and hides what stands next to it.',
    whatToDo: 'Delete it, or write the plain sign; the quick fix does.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose.";
  //                      ^ syntax.character
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
}`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.character'),
};
