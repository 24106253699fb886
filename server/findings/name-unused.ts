import type { Place } from '../../shared/text.ts';
import type { Bound } from '../binding/bind.ts';
import { namedIn } from '../prose/recognise.ts';
import type { FindingSort } from './finding.ts';
import { problemsOf, sortName } from './support/problems.ts';
import { proseOf } from './support/prose.ts';

export const nameUnused: FindingSort = {
  code: 'name.unused',
  level: 'hint',
  title: 'A name that nothing uses',
  help: {
    what: 'Something is declared in a file with cards and never named again. Limits are left alone: bounds and figures are held against them without being named. So is an item or gauge that a text names.',
    why: 'It is left over, or what should use it names something else.',
    whatToDo: 'Take it out, or use it.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"`,
      bad: `item vent : valve "the vent valve"
//   ^^^^ name.unused
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
}`,
      good: `item vent : valve "the vent valve"
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open, vent open
}`,
    },
  ],
  *inFile({ bound, parsed }) {
    const unused = [...problemsOf(bound, 'unused')];
    const inTexts =
      unused.length === 0
        ? new Set()
        : namedIn(
            proseOf(parsed.file).map(({ text }) => text.value),
            bound.equipment,
          );
    for (const { place, name, sort } of unused) {
      // What a text names is wanted: at most the text does not say it as an action.
      if (inTexts.has(name) && (sort === 'item' || sort === 'gauge')) continue;
      if (sort === 'limit' || (sort === 'role' && isAlone(place, bound))) continue;
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
