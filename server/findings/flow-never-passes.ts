import type { BranchFact } from '../proof/facts.ts';
import type { FindingSort } from './finding.ts';
import { asksFaultyBound, foundBranch } from './support/branches.ts';

export const flowNeverPasses: FindingSort = {
  code: 'flow.never-passes',
  level: 'warning',
  title: 'A check or branch that fails on every path',
  help: {
    what: 'Whatever happened before, the condition cannot hold here.',
    why: 'Everyone who follows the card is sent away here, or never does what the branch holds.',
    whatToDo: 'Mend the condition, or the step before it that makes it impossible. The path shows where that is.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check drain closed
  if drain open {
//^ flow.never-passes
    step "Put a bucket under the drain valve."
  }
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  if drain open {
    step "Put a bucket under the drain valve."
  }
}`,
    },
  ],
  *inCard({ proof }) {
    for (const fact of proof.branches) {
      if (fact.passes || !fact.fails || asksFaultyBound(fact)) continue;
      yield foundBranch(fact, `${whatFails(fact)}. Mend it, or what comes before it.`);
    }
  },
};

function whatFails({ form, statement }: BranchFact): string {
  if (statement.type === 'repeat') return 'On no path does this repeat come to what it is done for';
  return form === 'check' ? 'This check fails on every path' : 'This holds on no path';
}
