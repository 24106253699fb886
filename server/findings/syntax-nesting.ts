import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxNesting: FindingSort = {
  code: 'syntax.nesting',
  level: 'error',
  notUnderstood: true,
  title: 'Blocks stand too deep in each other',
  help: {
    what: 'A block stands in a block, in a block, and so on, deeper than anybody can follow.',
    why: 'What lies deeper is passed over and not proved.',
    whatToDo: 'Make a procedure of the inner part, and “do” it.',
  },
  sources: [],
  examples: [],
  inFile: (facts) => syntaxProblems(facts, 'syntax.nesting'),
};
