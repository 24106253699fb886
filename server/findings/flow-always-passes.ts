import type { FindingSort } from './finding.ts';
import { foundBranch } from './support/branches.ts';

export const flowAlwaysPasses: FindingSort = {
  code: 'flow.always-passes',
  level: 'hint',
  title: 'A branch that holds on every path',
  help: {
    what: 'Whatever happened before, the condition of this if or repeat holds here. Checks are left alone: a second look is good.',
    why: 'A question with one answer looks like a choice to the reader.',
    whatToDo: 'Take the condition away, or look whether it asks for what was meant.',
  },
  sources: [],
  examples: [
    {
      bad: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain closed
  if drain closed {
//^ flow.always-passes
    step "Look at the drain valve."
  }
}`,
      good: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain closed
  step "Look at the drain valve."
}`,
    },
  ],
  *inCard({ proof }) {
    for (const fact of proof.branches) {
      if (fact.form !== 'if' || fact.fails || !fact.passes) continue;
      yield foundBranch(fact, 'This holds on every path. Take the condition away, or ask for what was meant.');
    }
  },
};
