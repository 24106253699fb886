import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxMissing: FindingSort = {
  code: 'syntax.missing',
  level: 'error',
  notUnderstood: true,
  title: 'A part is missing',
  help: {
    what: 'A declaration, statement or action is not complete: something must stand where this is marked.',
    why: 'Without it nobody can know what was meant.',
    whatToDo: 'Write the missing part. The finding shows how the sentence is written in full.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain
  //       ^ syntax.missing
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
}`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.missing'),
};
