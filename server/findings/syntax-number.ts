import type { BadNumber } from '../binding/problems.ts';
import type { FindingSort } from './finding.ts';
import { problemsOf } from './support/problems.ts';

const sentences: Readonly<Record<BadNumber, string>> = {
  'repeats less than once': 'A repeat has at least one round.',
  'counts less than one': 'At least one start must be allowed.',
  'counts too many': 'Nobody counts so far. Write a smaller number.',
  'time out of reach': 'A time is at most a hundred years, and no finer than a millionth of a second.',
  'no whole number': 'A whole number is needed here.',
  'negative time': 'A time cannot be below zero.',
  'times in the wrong order': 'The longest time is shorter than the shortest. Write the shorter one first.',
  'scale in the wrong order': 'The scale ends before it begins. Write the lower end first.',
  'marks not above zero': 'The distance of two marks must be above zero.',
  'values in the wrong order': 'The last value comes before the first. Write the lower one first.',
  'negative tolerance': 'A tolerance cannot be below zero.',
};

export const syntaxNumber: FindingSort = {
  code: 'syntax.number',
  level: 'error',
  notUnderstood: true,
  title: 'A number that cannot be meant',
  help: {
    what: 'A number is outside what makes sense where it stands: a repeat of 0 times, a longest time below the shortest, a scale that ends before it begins.',
    why: 'There is no way to work with it.',
    whatToDo: 'Write the number that was meant.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  repeat 0 times {
  //     ^ syntax.number
    step "Look at the hose."
  }
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  repeat 2 times {
    step "Look at the hose."
  }
}`,
    },
  ],
  *inFile({ bound }) {
    for (const { place, what, written } of problemsOf(bound, 'bad-number')) {
      yield { place, message: `“${written}” cannot stand here. ${sentences[what]}` };
    }
  },
};
