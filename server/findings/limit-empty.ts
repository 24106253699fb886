import type { Bound } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { boundWords } from '../../shared/quantity.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { faultsIn } from './support/faults.ts';

export const limitEmpty: FindingSort = {
  code: 'limit.empty',
  level: 'error',
  reads: ['bounds'],
  notUnderstood: true,
  title: 'A bound that nothing can meet',
  help: {
    what: 'The lower end of a bound is above its upper end.',
    why: 'No reading passes, so everybody is stopped here; or the bound is passed over.',
    whatToDo: 'Write the lower end first, or correct the figure.',
  },
  sources: [],
  examples: [
    {
      given: `gauge pressure "wash pressure" in psi`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure 60 to 40 psi
  //                 ^^^^^^^^^^^^ limit.empty
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step read pressure 40 to 60 psi
}`,
    },
  ],
  ...faultsIn('empty', ({ gauge, bound }) => ({
    fixes: turnedRound(bound),
    message: `No ${gauge.label} is ${boundWords(bound)}: the lower end is above the upper one. Write the lower end first.`,
  })),
};

function turnedRound(bound: Bound): Fix[] {
  if (bound.form !== 'range' || !bound.low || !bound.high) return [];
  const turned = boundWords({ ...bound, low: bound.high, high: bound.low }, 'symbol');
  return [{ title: `Change to ${turned}`, edits: [replace(bound.place, turned)] }];
}
