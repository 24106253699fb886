import type { FindingSort } from './finding.ts';
import { foundOn } from './support/words.ts';

export const flowEndless: FindingSort = {
  code: 'flow.endless',
  level: 'error',
  title: 'A loop that no path leaves',
  help: {
    what: 'From here the card goes back, and whatever happens in the loop, it never comes out.',
    why: 'A card without an end is never signed, and nothing is put back.',
    whatToDo: 'Give the loop a way out: a check, an if with a “go to”, or “repeat at most N times until”.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step again: "Look at the hose."
  go to again
//^^^^^^^^^^^ flow.endless
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  repeat at most 3 times until "Is the water clear?" {
    step "Look at the hose."
  }
}`,
    },
  ],
  *inCard({ proof }) {
    for (const fact of proof.endless) {
      yield foundOn(fact, 'No path leaves this loop. Give it a way out: a check, or an if that goes somewhere else.');
    }
  },
};
