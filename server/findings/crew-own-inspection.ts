import type { Role } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { stepsIn } from './support/card.ts';
import { replace, type TextOf } from './support/edits.ts';

export const crewOwnInspection: FindingSort = {
  code: 'crew.own-inspection',
  level: 'warning',
  reads: [],
  title: 'A step is inspected by the role that does it',
  help: {
    what: 'A step is “inspected by” the role that does it, or that role signs in it as “independent”.',
    why: 'Who did the work sees what was meant, not what is there. An inspection needs another pair of eyes.',
    whatToDo: 'Let another role inspect the step, or do it.',
  },
  sources: [],
  examples: [
    {
      bad: `card pin "Pin" {
  number "1" revision "A" crew fitter "Fitter", inspector "Inspector"
  step by fitter inspected by fitter "Fit the locking pin."
  //             ^^^^^^^^^^^^^^^^^^^ crew.own-inspection
  step by inspector "Look at the seal."
}`,
      good: `card pin "Pin" {
  number "1" revision "A" crew fitter "Fitter", inspector "Inspector"
  step by fitter inspected by inspector "Fit the locking pin."
}`,
    },
  ],
  *inCard({ card, textOf }) {
    for (const { step, laneRole } of stepsIn(card.body)) {
      const doing = step.roles.length === 0 && laneRole ? [laneRole] : step.roles;
      for (const action of step.actions) {
        if (action.type !== 'sign' || !action.independent) continue;
        const { role, place } = action;
        if (role === undefined || !doing.includes(role)) continue;
        yield {
          place,
          message: `${role.label} does this step and cannot inspect it. Name another role after “inspected by”, or let another one do the step.`,
          fixes: card.crew
            .filter((other) => !doing.includes(other))
            .map((other) => inspectedBy(other, role, place, textOf)),
        };
      }
    }
  },
};

function inspectedBy(other: Role, role: Role, place: Place, textOf: TextOf): Fix {
  const words = textOf(place.file).slice(place.start, place.end);
  const at = place.start + words.search(new RegExp(`(?<=\\s)${role.name}(?![\\p{L}\\p{N}-])`, 'u'));
  return {
    title: `Let ${other.label} inspect it`,
    edits: [replace({ file: place.file, start: at, end: at + role.name.length }, other.name)],
  };
}
