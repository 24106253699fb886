import { conditionsAskedBy } from '../../shared/conditions.ts';
import type { Fix } from '../../shared/finding.ts';
import { finish } from '../../shared/parts.ts';
import type { Proof } from '../proof/facts.ts';
import type { BranchFact } from '../proof/questions/branches.ts';
import type { CardFacts, FindingSort } from './finding.ts';
import { asksFaultyBound } from './support/branches.ts';
import { stateName } from './support/card.ts';
import { bringAboutBefore, undoesWhatIsDone } from './support/mends.ts';
import { toSet } from './support/needed.ts';
import { alternatives, pathPlace } from './support/words.ts';

export const flowNeverPasses: FindingSort = {
  code: 'flow.never-passes',
  level: 'warning',
  everyPath: true,
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
//  ^ flow.unreachable
  }
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  if drain open {
    step "Put a bucket under the drain valve."
  }
}`,
    },
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check drain open
  //   ^^^^^^^^^^^^^^^^ flow.never-passes
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
  step check drain open
  step set drain closed
}`,
    },
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve" normally closed`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  keep drain closed else stop "Tell the guard."
  step set drain open
  step set drain closed
//^^^^ flow.never-passes
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set drain open
  step set drain closed
  keep drain closed else stop "Tell the guard."
  step "Wash the floor."
}`,
    },
  ],
  *inCard(facts) {
    const { proof } = facts;
    for (const fact of proof.branches) {
      if (fact.passes || !fact.fails || asksFaultyBound(fact)) continue;
      const { statement } = fact;
      yield {
        place: fact.place,
        message: `${whatFails(fact)}${asItStands(fact, proof)}. Mend it, or what comes before it.`,
        path: statement.type === 'keep' ? [pathPlace(statement.place, 'it is to be kept from here on')] : [],
        fixes: bringAbout(fact, facts),
      };
    }
  },
};

/** What is asked for is set before: where the writer has forgotten that step. */
function bringAbout({ statement, place }: BranchFact, facts: CardFacts): Fix[] {
  if (statement.type !== 'check' || statement.condition?.type !== 'state') return [];
  const { item, state, lasting } = statement.condition;
  if (lasting || item.kind.seen || undoesWhatIsDone([{ item, state }], place, facts.card)) return [];
  const fix = bringAboutBefore(place, toSet([{ item, state }]), facts, [item]);
  return fix ? [fix] : [];
}

/** What the one item that is asked for is there. */
function asItStands({ statement, place }: BranchFact, { statesAt }: Proof): string {
  const [condition, ...others] = conditionsAskedBy(statement);
  if (condition?.type !== 'state' || condition.lasting || others.length > 0) return '';
  const { item } = condition;
  const states = finish(statesAt(place, [item])).flatMap((known) => known.states);
  return states.length === 0 ? '' : `: ${item.label} is ${alternatives(states.map((state) => stateName(item, state)))}`;
}

function whatFails({ form, statement }: BranchFact): string {
  if (statement.type === 'keep') return 'What is to be kept holds here on no path, so nobody does this step';
  if (statement.type === 'repeat') return 'On no path does this repeat come to what it is done for';
  return form === 'check' ? 'This check fails on every path' : 'This holds on no path';
}
