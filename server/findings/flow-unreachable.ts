import { all } from '../../grammar/navigate.ts';
import type { Card, Step } from '../../shared/card.ts';
import { conditionsAskedBy } from '../../shared/conditions.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { BranchFact } from '../proof/questions/branches.ts';
import type { Unreached } from '../proof/questions/structure.ts';
import type { FindingSort } from './finding.ts';
import { asksFaultyBound } from './support/branches.ts';
import { changesItem, stateName } from './support/card.ts';
import { remove, replace, type TextOf } from './support/edits.ts';
import { foundOn } from './support/words.ts';

export const flowUnreachable: FindingSort = {
  code: 'flow.unreachable',
  level: 'warning',
  reads: ['bounds', 'proof'],
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
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check "Is the hose dry?" else {
    step "Hang it up."
    stop "Come back tomorrow."
  } else stop "Change the hose."
  //     ^^^^^^^^^^^^^^^^^^^^^^^ flow.unreachable
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check "Is the hose dry?" else {
    step "Hang it up."
  } else stop "Change the hose."
}`,
    },
  ],
  *inFile({ file, parsed }) {
    const asking = (['check', 'read', 'bring', 'wait'] as const).flatMap((type) => [...all(parsed.file, type)]);
    for (const { mend, otherwise } of asking) {
      const last = mend?.statements.at(-1)?.type ?? '';
      if (!mend || !otherwise || !['go', 'stop', 'finish'].includes(last)) continue;
      yield {
        place: { file, start: otherwise.start, end: otherwise.end },
        message:
          'No path reaches this: what stands in the braces before it leads away, so nobody comes back to ask a second time. Take this else out, or what leads away.',
        unnecessary: true,
        fixes: [{ title: 'Take this else out', edits: [replace({ file, start: mend.end, end: otherwise.end }, '')] }],
      };
    }
  },
  *inCard({ card, proof, textOf }) {
    const faulty = proof.branches.filter((branch) => branch.passes !== branch.fails && asksFaultyBound(branch));
    for (const fact of proof.unreachable) {
      if (faulty.some((branch) => cutsOff(branch, fact.place))) continue;
      const check = fact.isBegun ? undefined : checkLeadingTo(fact.step, card, proof.branches);
      if (check) {
        yield foundOn(fact, `No path reaches this step: ${whyItHolds(check, card)}.`, {
          path: [{ place: check.place, text: 'this leads here where it fails, and it never does' }],
        });
        continue;
      }
      yield foundOn(fact, sentence(fact), {
        unnecessary: !fact.isBegun,
        path: fact.isBegun ? [{ place: fact.step.head, text: 'no path from here reaches this step' }] : [],
        fixes: takeOut(fact, textOf),
      });
    }
  },
};

function sentence({ doing, isBegun, isDrawn }: Unreached): string {
  if (!isDrawn)
    return 'No machine that this card applies to is one that this step is for. Take it out, or mend “applies”.';
  if (!doing) return 'No path reaches this step. Take it out, or mend what ends the card before it.';
  return isBegun
    ? `Done here, “${doing.name}” has a step that no path reaches. Mend what it hangs on, or what “${doing.name}” is given.`
    : 'No path reaches this. Take it out, or mend what ends the card before it.';
}

/** A check that never fails, whose `else` would go to the step or to the stage that begins with it. */
function checkLeadingTo(step: Step, card: Card, branches: readonly BranchFact[]): BranchFact | undefined {
  const stage = card.body.find((part) => part.type === 'stage' && part.body.includes(step));
  const labels = [step.label, stage?.type === 'stage' ? stage.label : undefined];
  return branches.find(({ form, passes, fails, statement }) => {
    const otherwise = form === 'check' && passes && !fails && 'otherwise' in statement && statement.otherwise;
    return (
      otherwise &&
      'type' in otherwise &&
      otherwise.type === 'go' &&
      otherwise.target &&
      labels.includes(otherwise.target)
    );
  });
}

function whyItHolds({ statement }: BranchFact, { body }: Card): string {
  const [condition] = conditionsAskedBy(statement);
  const isNormal = condition?.type === 'state' && condition.item.normally === condition.state && !condition.lasting;
  if (!isNormal || body.some((part) => changesItem(part, condition.item)))
    return 'the check that leads here never fails';
  const state = stateName(condition.item, condition.state);
  return `the check that leads here never fails, as the card begins with ${condition.item.label} ${state} and nothing changes that. If it may be otherwise, write “normally ${state} verify” in the equipment`;
}

function takeOut({ step, doing, isBegun }: Unreached, textOf: TextOf): Fix[] {
  if (isBegun || (!doing && step.label)) return [];
  const title = doing ? 'Take this out' : 'Take this step out';
  return [{ title, edits: [remove((doing ?? step).place, textOf)] }];
}

/** A bound that has a finding of its own may pass or fail: nothing is said of the steps that it cuts off. */
function cutsOff({ statement, form, passes }: BranchFact, { file, start }: Place): boolean {
  const { place } = statement;
  if (place.file !== file) return false;
  const isInside = place.start < start && start < place.end;
  return isInside || (form === 'check' && !passes && place.start < start);
}
