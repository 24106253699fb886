import type { FindingSort } from './finding.ts';
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
  *inCard({ proof }) {
    for (const fact of proof.unreachable) {
      yield foundOn(fact, 'No path reaches this step. Take it out, or mend what ends the card before it.', {
        unnecessary: true,
      });
    }
  },
};
