import type { Item, Role } from '../../shared/card.ts';
import type { FindingSort } from './finding.ts';
import { handledItems } from './support/hands.ts';

export const recordOwnInspection: FindingSort = {
  code: 'record.own-inspection',
  level: 'error',
  reads: [],
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
  *inCard({ card }) {
    const doneBy = new Map<Item, readonly Role[]>();
    for (const { item, kind, becomes, place, hands } of handledItems(card.body, 'std:record')) {
      if (kind !== 'critical-task') continue;
      if (becomes === 'done') doneBy.set(item, hands);
      const same = becomes === 'inspected' && hands.find((role) => doneBy.get(item)?.includes(role));
      if (!same) continue;
      yield {
        place,
        message: `${same.label} did ${item.label} and cannot inspect it. Let another role inspect it.`,
        source: 'UK 145.A.48(b)',
      };
    }
  },
};
