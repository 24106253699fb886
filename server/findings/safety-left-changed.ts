import type { Card } from '../../shared/card.ts';
import type { LeftChanged } from '../proof/questions/put-back.ts';
import type { FindingSort } from './finding.ts';
import { stateName } from './support/card.ts';
import { bringAboutAtFinishes } from './support/mends.ts';
import { foundOn, pathPlace, stateNames } from './support/words.ts';

export const safetyLeftChanged: FindingSort = {
  code: 'safety.left-changed',
  level: 'error',
  title: 'An item is not put back at the end',
  help: {
    what: 'The card changes an item that the equipment calls “normally” something, or assumes it in another state, and on some path finishes without putting it back.',
    why: 'The next crew counts on the normal state. A breaker left pulled, a valve left shut and a cover left on have ended flights.',
    whatToDo: 'Put it back on every path that finishes, or say with “leaves” that it stays so, and why.',
  },
  sources: [],
  examples: [
    {
      given: `kind breaker { closed "Close {}", pulled "Pull {}" }
item ignition : breaker "the ignition breaker" normally closed`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set ignition pulled
  //   ^ safety.left-changed
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set ignition pulled
  step set ignition closed
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of facts.proof.leftChanged) {
      const { item, wanted, finishes, place } = fact;
      // What can only be seen was not changed by the card; setting it is a slip of its own.
      if (item.kind.seen) continue;
      const fix = bringAboutAtFinishes(finishes, [{ item, state: wanted }], place, facts);
      yield foundOn(fact, messageOf(fact, facts.card), {
        path: finishes.slice(0, 1).map((finish) => pathPlace(finish, 'the card finishes here')),
        ...(fix && { fixes: [fix] }),
      });
    }
  },
};

function messageOf({ item, left, wanted, assumed }: LeftChanged, { leaves }: Card): string {
  const back = stateName(item, wanted);
  const isSaid = leaves.some((one) => one.item === item);
  const mend = `Set ${item.name} ${back} before that${isSaid ? '' : `, or say “leaves ${item.name} …” and why`}.`;
  const since = assumed ? ', as assumed here,' : '';
  return `${item.label} may still be ${stateNames(item, left)}${since} when the card finishes. ${mend}`;
}
