import type { FindingSort } from './finding.ts';
import { problemsOf } from './support/problems.ts';

export const syntaxTooLarge: FindingSort = {
  code: 'syntax.too-large',
  level: 'error',
  title: 'A card that is too large when written out',
  help: {
    what: 'With all its procedures and rounds written out, the card has more statements than can be proved.',
    why: 'Procedures that do each other in several places multiply.',
    whatToDo: 'Do fewer of them, or split the card.',
  },
  sources: [],
  examples: [],
  *inFile({ bound }) {
    for (const { place, most } of problemsOf(bound, 'too-large')) {
      yield {
        place,
        message: `Written out, this card has more than ${most} statements. Do fewer procedures, or split it.`,
      };
    }
  },
};
