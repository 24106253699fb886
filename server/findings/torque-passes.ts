import { decimal } from '../../shared/exact.ts';
import { toBase } from '../../shared/quantity.ts';
import type { Quantity } from '../../shared/units.ts';
import type { FindingSort } from './finding.ts';
import { actionsIn, statementsIn } from './support/card.ts';

export const torquePasses: FindingSort = {
  code: 'torque.passes',
  level: 'warning',
  title: 'A torque is given in passes that do not rise',
  help: {
    what: 'A “for each” gives the values of several passes of tightening, and one of them is not above the one before it.',
    why: 'A pass at a lower torque, or at the same one, moves no bolt: the wrench clicks at once, and the last pass is not at the value.',
    whatToDo: 'Write the values in rising order, the last one being the torque that is wanted.',
  },
  sources: [],
  examples: [
    {
      bad: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  for each pass in 10, 25, 18 N.m {
  //^ torque.passes
    step tighten "the lid bolts" to pass in "a star pattern"
  }
}`,
      good: `card lid "Lid" {
  number "1" revision "A" crew fitter "Fitter"
  for each pass in 10, 18, 25 N.m {
    step tighten "the lid bolts" to pass in "a star pattern"
  }
}`,
    },
  ],
  *inCard({ card }) {
    for (const statement of statementsIn(card.body)) {
      if (statement.type !== 'for-each' || !statement.values) continue;
      const { values, rounds, place } = statement;
      if (![...actionsIn(rounds.flat())].some(({ type }) => type === 'tighten')) continue;
      const at = values.findIndex((value, index) => index > 0 && !isAbove(value, values[index - 1] as Quantity));
      if (at < 0) continue;
      const [before, after] = [values[at - 1], values[at]].map((value) => inWords(value as Quantity));
      yield {
        place,
        message: `The pass at ${after} comes after one at ${before}. Let the passes rise, the last one being the torque that is wanted.`,
      };
    }
  },
};

function isAbove(value: Quantity, other: Quantity): boolean {
  return toBase(value).compare(toBase(other)) > 0;
}

function inWords({ value, unit }: Quantity): string {
  return `${decimal(value)} ${unit.symbol}`;
}
