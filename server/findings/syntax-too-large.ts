import type { FindingSort } from './finding.ts';
import { problemsOf } from './support/problems.ts';

export const syntaxTooLarge: FindingSort = {
  code: 'syntax.too-large',
  level: 'error',
  notUnderstood: true,
  title: 'A card that is too large when written out',
  help: {
    what: 'With all its procedures and rounds written out, the card has more statements than can be proved; or it reads differently on more sorts of machines than can be proved one by one.',
    why: 'Procedures that do each other in several places multiply, and so do variants that the card looks at.',
    whatToDo: 'Do fewer of them, or split the card: a card for each of a few variants.',
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
  *inCard({ card, proof }) {
    if (proof.allConfigurations) return;
    const message = `This card reads differently on too many sorts of machines: only ${proof.configurations.length} of them are proved. Split it into cards that look at fewer variants.`;
    yield { place: card.place, message };
  },
};
