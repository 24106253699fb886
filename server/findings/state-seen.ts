import type { Accept, Action, Sign } from '../../shared/card.ts';
import { capital } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { actionsIn } from './support/card.ts';
import { replace } from './support/edits.ts';

export const stateSeen: FindingSort = {
  code: 'state.seen',
  level: 'error',
  reads: [],
  title: 'Something that can only be seen is set',
  help: {
    what: 'A step sets or runs an item of a kind that is “seen”: a lamp, a trip, the band of a needle.',
    why: 'Nobody can do that. A card that counts on it counts on something that was only wished for.',
    whatToDo: 'Write “check”, or set what makes the lamp come on.',
  },
  sources: [],
  examples: [
    {
      given: `kind lamp seen { dark, lit }
item pump-lamp : lamp "the pump lamp"`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set pump-lamp lit
  //       ^ state.seen
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check pump-lamp lit
}`,
    },
  ],
  *inCard({ card }) {
    for (const action of actionsIn(card.body)) {
      for (const { item, place } of changesOf(action)) {
        if (!item.kind.seen) continue;
        const verb = { ...action.place, end: action.place.start + action.type.length };
        const alone = action.type !== 'run' && changesOf(action).length === 1;
        yield {
          place,
          message: `${capital(item.label)} can only be seen, not set. Check it, or set what brings it about.`,
          fixes: alone ? [{ title: 'Check it instead', edits: [replace(verb, 'check')] }] : [],
        };
      }
    }
  },
};

function changesOf(action: Action | Sign | Accept) {
  if (action.type === 'set' || action.type === 'ensure') return action.changes;
  return action.type === 'run' ? [{ item: action.item, place: action.place }] : [];
}
