import type { FindingSort } from './finding.ts';
import { type HandledItem, handledItems } from './support/hands.ts';
import { type FoundInCall, foundOnMachines } from './support/machines.ts';
import { type Followed, type Later, reaching } from './support/reaching.ts';
import { pathPlace } from './support/words.ts';

export const recordOwnInspection: FindingSort = {
  code: 'record.own-inspection',
  level: 'error',
  reads: ['proof'],
  title: 'A critical task is inspected by the role that did it',
  help: {
    what: 'A critical task (“std:record”) is done by a role, and the same role inspects it.',
    why: 'Who did the work sees what was meant, not what is there. A critical task needs another pair of eyes.',
    whatToDo: 'Let another role of the crew inspect it, or do it.',
  },
  sources: [{ title: 'UK 145.A.48(b) and its guidance: the inspector is independent', status: 'seen' }],
  examples: [
    {
      given: 'use "std:record"\nitem pin : critical-task "the locking pin"',
      bad: `card lock "Lock" {
  number "1" revision "A" on 2026-03-02 references "Manual of the lock, 4-1" crew fitter "Fitter", mate "Mate"
  step by mate "Hold the lever."
  step by fitter set pin done
  step by fitter set pin inspected
  //                 ^^^^^^^^^^^^^ record.own-inspection
}`,
      good: `card lock "Lock" {
  number "1" revision "A" on 2026-03-02 references "Manual of the lock, 4-1" crew fitter "Fitter", mate "Mate"
  step by mate "Hold the lever."
  step by fitter set pin done
  step by mate set pin inspected
}`,
    },
  ],
  inCard({ card, proof }) {
    const all = [...handledItems(card, 'std:record')];
    const inspected = reaching(proof, all, tasks, isInspectionOf);
    return foundOnMachines(card, (_, machines) => inspected(machines).flatMap(ownInspection));
  },
};

/** Who did it last did it. */
const tasks: Followed = {
  begins: ({ kind, becomes }) => kind === 'critical-task' && becomes === 'done',
  ends: () => false,
};

function isInspectionOf({ item, becomes }: HandledItem, done: HandledItem): boolean {
  return item === done.item && becomes === 'inspected';
}

function ownInspection({ item, place, hands, call, earlier }: Later): FoundInCall[] {
  const same = hands.find((role) => earlier.some((one) => one.hands.includes(role)));
  if (!same) return [];
  return [
    {
      place,
      call,
      message: `${same.label} did ${item.label} and cannot inspect it. Let another role inspect it.`,
      source: 'UK 145.A.48(b)',
      path: earlier
        .filter((one) => one.hands.includes(same))
        .map((one) => pathPlace(one.place, `${same.label} does ${item.label}`)),
    },
  ];
}
