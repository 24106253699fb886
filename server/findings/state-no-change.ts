import type { Card, Step } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { holds, type Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { statementsIn, stateName } from './support/card.ts';
import { remove, type TextOf } from './support/edits.ts';
import { stepAt } from './support/where.ts';
import { foundOn } from './support/words.ts';

export const stateNoChange: FindingSort = {
  code: 'state.no-change',
  level: 'hint',
  everyPath: true,
  reads: ['proof'],
  title: 'A set that changes nothing',
  help: {
    what: 'On every path the item is already in the state that this step sets. Behind the else of a look it may be set again: the look has failed.',
    why: 'A step without effect often stands where another was meant: the other valve, the other way round.',
    whatToDo: 'Take it out, set what was meant, or write “check” where a second look is wanted.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
  step set drain open
  //   ^ state.no-change
  step set drain closed
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
  step check drain open
  step set drain closed
}`,
    },
  ],
  *inCard({ card, proof, textOf }) {
    const statements = proof.noChange.length === 0 ? [] : [...statementsIn(card.body)];
    const mends = statements.filter(({ type }) => type === 'mend');
    for (const fact of proof.noChange) {
      // A look has failed there: what was done is done again.
      if (mends.some((mend) => holds(mend.place, fact.place))) continue;
      const state = stateName(fact.item, fact.state);
      yield foundOn(
        fact,
        `Already ${state} here on every path: ${fact.item.label}. Take this out, or write “check” for a second look.`,
        { fixes: takeOut(fact.place, card, textOf) },
      );
    }
  },
};

/** Takes the step out where it does nothing else. */
function takeOut(place: Place, card: Card, textOf: TextOf): Fix[] {
  const step = stepAt(card, place);
  return step && isOnlySet(step, place) ? [{ title: 'Take this step out', edits: [remove(step.place, textOf)] }] : [];
}

function isOnlySet(step: Step, place: Place): boolean {
  const [action, ...others] = step.actions;
  if (action?.type !== 'set' || others.length > 0 || step.texts.length > 0 || step.label) return false;
  const inside = action.place.file === place.file && action.place.start <= place.start && place.end <= action.place.end;
  return inside && action.changes.length === 1;
}
