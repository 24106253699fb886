import type { FindingSort } from './finding.ts';

export const internal: FindingSort = {
  code: 'internal',
  level: 'error',
  notUnderstood: true,
  title: 'A fault of Cardwright itself',
  help: {
    what: 'One of the checks failed on this text. All others were made.',
    why: 'What that check looks for was not looked for here, so the card cannot be called clean.',
    whatToDo: 'Report it with the text that brings it about.',
  },
  sources: [],
  examples: [],
};
