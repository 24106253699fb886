import type { FindingSort } from './finding.ts';
import { changeTo, didYouMean, problemsOf } from './support/problems.ts';

export const unitUnknown: FindingSort = {
  code: 'unit.unknown',
  level: 'error',
  notUnderstood: true,
  title: 'A unit that is none',
  help: {
    what: 'After a number, or after “in”, stands something that is no unit.',
    why: 'Without its unit a number says nothing.',
    whatToDo: 'Write the unit by its trade symbol: psi, kPa, degC, rpm, N.m, lbf.ft, V, L, ppm, min and so on.',
  },
  sources: [],
  examples: [
    {
      bad: `gauge pressure "wash pressure" in psy
//                                ^^^ unit.unknown
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure
}`,
      good: `gauge pressure "wash pressure" in psi
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure
}`,
    },
  ],
  *inFile({ bound }) {
    for (const { place, text, near } of problemsOf(bound, 'unknown-unit')) {
      yield {
        place,
        message: `“${text}” is no unit. ${didYouMean(near, 'Write its trade symbol, such as psi, degC, rpm, N.m or V.')}`,
        fixes: changeTo(place, near),
      };
    }
  },
};
