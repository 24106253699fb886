import { freeName } from '../binding/references.ts';
import type { FindingSort } from './finding.ts';
import { aSort, changeTo, problemsOf } from './support/problems.ts';
import { pathPlace } from './support/words.ts';

export const nameDuplicate: FindingSort = {
  code: 'name.duplicate',
  level: 'error',
  title: 'A name that is declared twice',
  help: {
    what: 'Two things have one name, or a part that can be said once is said twice.',
    why: 'Nobody can tell which of them is meant where the name is used.',
    whatToDo: 'Rename one of them, or take it out.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }`,
      bad: `item drain : valve "the drain valve"
item drain : valve "the other drain valve"
//   ^^^^^ name.duplicate
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
}`,
      good: `item drain-1 : valve "the drain valve"
item drain-2 : valve "the other drain valve"
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain-1 open, drain-2 open
}`,
    },
  ],
  *inFile({ bound }) {
    for (const { place, name, firstSort, first, second } of problemsOf(bound, 'duplicate-name')) {
      const elsewhere =
        second.file === place.file && second.start === place.start ? [] : [pathPlace(second, 'and here')];
      yield {
        place,
        message: `There is already ${aSort(firstSort)} “${name}”. Rename one of them.`,
        fixes: elsewhere.length === 0 ? changeTo(place, [freeName(name, bound.references)]) : [],
        path: [pathPlace(first, `“${name}” is declared here`), ...elsewhere],
      };
    }
    for (const { place, what, first } of problemsOf(bound, 'said-twice')) {
      yield {
        place,
        message: `“${what}” is said twice. Take one of them out.`,
        path: [pathPlace(first, 'it is said here')],
      };
    }
  },
};
