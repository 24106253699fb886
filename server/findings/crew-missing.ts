import type { Step } from '../../shared/card.ts';
import type { FindingSort } from './finding.ts';
import { rolesInWords, stepsIn } from './support/card.ts';
import { insertInHead, type TextOf } from './support/edits.ts';

export const crewMissing: FindingSort = {
  code: 'crew.missing',
  level: 'warning',
  title: 'A step does not say who does it',
  help: {
    what: 'The card has several roles, and a step has no “by”. A lane of a together says it for the steps in it.',
    why: 'Each waits for the other, or both do it.',
    whatToDo: 'Write “by” and the role after “step”.',
  },
  sources: [],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew cockpit "Cockpit", ground "Ground"
  step by cockpit "Look at the lamp."
  step by ground "Look at the hose."
  step "Look at the gauge."
//^^^^^^^^^^^^^^^^^^^^^^^^^ crew.missing
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew cockpit "Cockpit", ground "Ground"
  step by cockpit "Look at the lamp."
  step by ground "Look at the hose."
  step by cockpit "Look at the gauge."
}`,
    },
  ],
  *inCard({ card, textOf }) {
    if (card.crew.length < 2) return;
    for (const { step, laneRole } of stepsIn(card.body)) {
      if (laneRole || step.roles.length > 0 || saysBy(step, textOf)) continue;
      yield {
        place: step.head,
        message: `This step does not say who does it. Write by and one of: ${rolesInWords(card)}.`,
        fixes: card.crew.map((role) => ({
          title: `Let ${role.label} do this step`,
          edits: [insertInHead(step, `by ${role.name}`, textOf)],
        })),
      };
    }
  },
};

/** A role that nobody knows is a slip of its own. */
function saysBy({ head: { file, start, end } }: Step, textOf: TextOf): boolean {
  const withoutTexts = textOf(file)
    .slice(start, end)
    .replace(/"[^"\\\n]*(?:\\.[^"\\\n]*)*"?|inspected\s+by/g, '');
  return /\sby\s/u.test(withoutTexts);
}
