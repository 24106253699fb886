import type { Place } from '../../shared/text.ts';
import type { BranchFact } from '../proof/facts.ts';
import type { FindingSort } from './finding.ts';
import { remove } from './support/edits.ts';
import { foundOn } from './support/words.ts';

export const flowUnreachable: FindingSort = {
  code: 'flow.unreachable',
  level: 'warning',
  title: 'No path reaches this step',
  help: {
    what: 'Whatever happens on the way, the card never comes to this step. Of several in a row the first is reported.',
    why: 'What nobody will ever do protects nobody, and a reader who sees it believes that it is done.',
    whatToDo:
      'Look at what ends or leaves the card before it: a stop, a finish, a go to, or a check that always fails.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
  finish
  step "Roll up the hose."
//^ flow.unreachable
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Look at the hose."
  step "Roll up the hose."
  finish
}`,
    },
  ],
  *inCard({ proof, textOf }) {
    const oneWay = proof.branches.filter(({ passes, fails }) => passes !== fails);
    for (const fact of proof.unreachable) {
      if (oneWay.some((branch) => cutsOff(branch, fact.place))) continue;
      yield foundOn(fact, 'No path reaches this step. Take it out, or mend what ends the card before it.', {
        unnecessary: true,
        fixes: fact.step.label ? [] : [{ title: 'Take this step out', edits: [remove(fact.step.place, textOf)] }],
      });
    }
  },
};

/** A branch that can go one way only has a finding of its own, which says the same of the steps that it cuts off. */
function cutsOff({ statement, form, passes }: BranchFact, { file, start }: Place): boolean {
  const { place } = statement;
  if (place.file !== file) return false;
  const isInside = place.start < start && start < place.end;
  return isInside || (form === 'check' && !passes && place.start < start);
}
