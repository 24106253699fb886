import type { Fix } from '../../shared/finding.ts';
import { holds, type Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { replace, type TextOf } from './support/edits.ts';

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
  *inCard({ proof, textOf }) {
    const checks = proof.branches.filter(({ form }) => form === 'check');
    for (const fact of proof.endless) {
      const isElse = checks.some(({ statement: { place } }) => holds(place, fact.place));
      const why = isElse
        ? 'the check that leads back fails each time, as nothing in the loop changes what it asks. Set that in a step, or ask a question'
        : 'give it a way out: a check, or an if that goes somewhere else';
      yield foundOn(fact, `No path leaves this loop: ${why}.`, {
        fixes: isElse ? [] : askBack(fact.place, textOf),
      });
    }
  },
};

/** Goes back only where the reader says so. */
function askBack(place: Place, textOf: TextOf): Fix[] {
  const jump = textOf(place.file).slice(place.start, place.end);
  if (!/^go\s+to\s/.test(jump)) return [];
  const written = `if "Is it to be done again?" { ${jump} }`;
  return [{ title: `Change to: ${written}`, edits: [replace(place, written)] }];
}
