import { wayBetween } from '../binding/files.ts';
import type { FindingSort } from './finding.ts';
import { problemsOf } from './support/problems.ts';

export const nameRecursion: FindingSort = {
  code: 'name.recursion',
  level: 'error',
  notUnderstood: true,
  title: 'Something that comes back to itself',
  help: {
    what: 'A procedure or card does itself, a gauge is worked out from itself, or a file uses itself, mostly by way of others.',
    why: 'Written out, it would have no end.',
    whatToDo: 'Break the circle. Where a loop is meant, write repeat.',
  },
  sources: [],
  examples: [
    {
      bad: `procedure look() {
  step "Look at the hose."
  do look
  // ^^^^ name.recursion
}
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  do look
}`,
      good: `procedure look() {
  step "Look at the hose."
}
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  repeat 2 times { do look }
}`,
    },
  ],
  *inFile({ bound }) {
    for (const { place, name, through } of problemsOf(bound, 'recursion')) {
      const way = through.length > 2 ? ` by way of ${through.slice(1, -1).join(', ')}` : '';
      yield { place, message: `“${name}” comes back to itself${way}. Break the circle; for a loop write repeat.` };
    }
    for (const { place, path, through } of problemsOf(bound, 'use-cycle')) {
      const written = (file: string) => wayBetween(place.file, file);
      const way = through.length > 1 ? ` (${through.map(written).join(', ')})` : '';
      yield { place, message: `“${written(path)}” leads back to this file${way}. Take one of these “use” lines out.` };
    }
  },
};
