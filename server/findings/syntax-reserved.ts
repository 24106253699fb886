import type { FindingSort } from './finding.ts';
import { syntaxProblems } from './support/syntax.ts';

export const syntaxReserved: FindingSort = {
  code: 'syntax.reserved',
  level: 'error',
  notUnderstood: true,
  title: 'A word of the language used as a name',
  help: {
    what: 'A word that begins a declaration, a statement or an action stands where a name should be.',
    why: 'The text could be read in two ways.',
    whatToDo: 'Choose another name: a number behind it is enough.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }`,
      bad: `item step : valve "the drain valve"
//   ^^^^ syntax.reserved`,
      good: `item step-1 : valve "the drain valve"`,
    },
  ],
  inFile: (facts) => syntaxProblems(facts, 'syntax.reserved'),
};
