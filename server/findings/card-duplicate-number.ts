import type { FindingSort } from './finding.ts';
import type { CardAcross } from './support/across.ts';
import { asText } from './support/edits.ts';
import { changeTo } from './support/problems.ts';
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
    const first = new Map<string, CardAcross>();
    const cards = files.flatMap((file) => file.cards);
    const taken = new Set(cards.flatMap(({ number }) => (number ? [number.text] : [])));
    for (const card of cards) {
      if (!card.number) continue;
      const other = first.get(card.number.text);
      if (!other) first.set(card.number.text, card);
      else {
        const { place } = card.number;
        yield {
          place,
          message: `The card “${other.title}” has the number ${card.number.text} too. Give one of them another.`,
          path: [pathPlace(other.place, `“${other.title}” has this number`)],
          fixes: changeTo(place, [asText(nextFree(card.number.text, taken))]),
        };
      }
    }
  },
};

/** The number counted on at its end, to the first that no card has: `WP-09`, `WP-10`. */
function nextFree(number: string, taken: ReadonlySet<string>): string {
  const digits = /\d*$/u.exec(number)?.[0] ?? '';
  const stem = digits === '' ? `${number}-` : number.slice(0, -digits.length);
  let count = Number(digits || 1);
  let next: string;
  do next = `${stem}${String(++count).padStart(digits.length, '0')}`;
  while (taken.has(next));
  return next;
}
