import type { Card } from '../../shared/card.ts';
import type { FindingSort } from './finding.ts';
import { pathPlace } from './support/words.ts';

export const cardDuplicateNumber: FindingSort = {
  code: 'card.duplicate-number',
  level: 'error',
  title: 'Two cards with the same number',
  help: {
    what: 'Two cards of the files that are looked at together have the same number. The later one is reported.',
    why: 'Who asks for the card by its number may get the other.',
    whatToDo: 'Give one of them another number.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "MG-1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
}
card dry "Dry" {
  number "MG-1" revision "A" crew mechanic "Mechanic"
  //     ^^^^^^ card.duplicate-number
  step "Look at the fan."
}`,
      good: `card wash "Wash" {
  number "MG-1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
}
card dry "Dry" {
  number "MG-2" revision "A" crew mechanic "Mechanic"
  step "Look at the fan."
}`,
    },
  ],
  *inWorkspace({ files }) {
    const first = new Map<string, Card>();
    for (const card of files.flatMap(({ bound }) => bound.cards)) {
      if (!card.number) continue;
      const other = first.get(card.number.text);
      if (!other) first.set(card.number.text, card);
      else {
        yield {
          place: card.number.place,
          message: `The card “${other.title}” has the number ${card.number.text} too. Give one of them another.`,
          path: [pathPlace(other.place, `“${other.title}” has this number`)],
        };
      }
    }
  },
};
