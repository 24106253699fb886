import type { Place } from '../../shared/text.ts';
import type { Bound } from '../binding/bind.ts';
import type { FindingSort } from './finding.ts';
import { problemsOf, sortName } from './support/problems.ts';

export const nameUnused: FindingSort = {
  code: 'name.unused',
  level: 'hint',
  title: 'A name that nothing uses',
  help: {
    what: 'Something is declared in a file with cards and never named again. Items, gauges and their limits are left alone: they say what the machine has, and the card may come to them yet.',
    why: 'It is left over, or what should use it names something else.',
    whatToDo: 'Take it out, or use it.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"
item vent : valve "the vent valve"`,
      bad: `card wash "Wash" {
  number "1" revision "A"
  crew mechanic "Mechanic" crew lookout "Lookout"
  //                            ^^^^^^^ name.unused
  step by mechanic set drain open
}`,
      good: `card wash "Wash" {
  number "1" revision "A"
  crew mechanic "Mechanic" crew lookout "Lookout"
  step by mechanic set drain open
  step by lookout "Look for leaks."
}`,
    },
  ],
  *inFile({ bound }) {
    for (const { place, name, sort } of problemsOf(bound, 'unused')) {
      if (isEquipment(sort) || (sort === 'role' && isAlone(place, bound))) continue;
      yield {
        place,
        message: `Nothing uses the ${sortName(sort)} “${name}”. Take it out, or use it.`,
        unnecessary: true,
      };
    }
  },
};

/** Where a card has one role, every step is that role's without saying so. */
function isAlone(place: Place, { cards }: Bound): boolean {
  return cards.some(({ crew }) => crew.length === 1 && crew[0]?.place.start === place.start);
}

function isEquipment(sort: string): boolean {
  return sort === 'item' || sort === 'gauge' || sort === 'limit';
}
