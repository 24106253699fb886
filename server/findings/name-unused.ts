import type { FindingSort } from './finding.ts';
import { problemsOf, sortName } from './support/problems.ts';

export const nameUnused: FindingSort = {
  code: 'name.unused',
  level: 'hint',
  title: 'A name that nothing uses',
  help: {
    what: 'Something is declared and never named again.',
    why: 'It is left over, or what should use it names something else.',
    whatToDo: 'Take it out, or use it.',
  },
  sources: [],
  examples: [],
  *inFile({ bound }) {
    for (const { place, name, sort } of problemsOf(bound, 'unused')) {
      yield {
        place,
        message: `Nothing uses the ${sortName(sort)} "${name}". Take it out, or use it.`,
        unnecessary: true,
      };
    }
  },
};
