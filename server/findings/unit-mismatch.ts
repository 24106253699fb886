import type { FindingSort } from './finding.ts';
import { misfitsOf, type ProblemOf, problemsOf } from './support/problems.ts';

export const unitMismatch: FindingSort = {
  code: 'unit.mismatch',
  level: 'error',
  notUnderstood: true,
  title: 'A unit of something else',
  help: {
    what: 'A quantity is given in a unit that does not measure what is asked for here: volts for a pressure, litres for a time.',
    why: 'The two cannot be compared.',
    whatToDo:
      'Write the quantity in a unit of the right sort. Another unit of the same sort is fine: it is converted exactly.',
  },
  sources: [],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at least 28 V
  //                             ^ unit.mismatch
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure at least 28 psi
}`,
    },
  ],
  *inFile({ bound }) {
    for (const problem of problemsOf(bound, 'unit-mismatch')) {
      yield { place: problem.place, message: `${mismatch(problem)} Write a unit of ${problem.expected}.` };
    }
    for (const { place, label, parameter, misfit } of misfitsOf(bound, 'unit-mismatch')) {
      yield { place, message: `The procedure cannot be done with ${label} as “${parameter}”: ${mismatch(misfit)}` };
    }
  },
};

function mismatch({ found, expected, needed, of }: ProblemOf<'unit-mismatch'>): string {
  const wanted = of && needed ? `${of} is in ${needed.symbol}` : `a ${expected} is needed here`;
  return `${found.symbol} measures ${found.dimension}; ${wanted}.`;
}
