import type { FindingSort } from './finding.ts';
import { handledItems } from './support/hands.ts';

export const lockoutPurpose: FindingSort = {
  code: 'lockout.purpose',
  level: 'warning',
  title: 'A card that locks does not say what it is to be used for',
  help: {
    what: 'A card locks an energy isolator (“std:lockout”) and has no purpose.',
    why: 'What is locked is right for one sort of work. Who takes the card for another has left some energy on.',
    whatToDo:
      'Say in the head which work it is for (“purpose "For changing the blade."”). The other contents that are asked of a procedure, the steps of shutdown, isolation, locks, their removal and the test, are held by the rules of std:lockout.',
  },
  sources: [{ title: '29 CFR 1910.147(c)(4)(ii)(A): a statement of the intended use', status: 'from memory' }],
  examples: [
    {
      given: `use "std:lockout"
item saw     : lockout-machine "the saw" normally running
item switch-1 : energy-isolator "the switch of the saw" normally on`,
      bad: `card saw-blade "Saw blade" {
  number "1" revision "A" crew fitter "Fitter" qualified "Authorised to lock and tag"
  step set lockout-preparation done
  step set saw shut-down
  step set switch-1 off, switch-1 locked
  //                     ^^^^^^^^^^^^^^^ lockout.purpose
  step set everybody-clear done
  step set switch-1 unlocked
  step set lockout-notice done
  step set switch-1 on, saw running
}`,
      good: `card saw-blade "Saw blade" {
  number "1" revision "A" purpose "For changing the blade." crew fitter "Fitter" qualified "Authorised to lock and tag"
  step set lockout-preparation done
  step set saw shut-down
  step set switch-1 off, switch-1 locked
  step set everybody-clear done
  step set switch-1 unlocked
  step set lockout-notice done
  step set switch-1 on, saw running
}`,
    },
  ],
  *inCard({ card }) {
    if (card.purpose !== undefined) return;
    for (const { kind, becomes, place } of handledItems(card.body, 'std:lockout')) {
      if (kind !== 'energy-isolator' || becomes !== 'locked') continue;
      yield {
        place,
        message: 'This card locks energy out and does not say for which work. Write “purpose "…"” in its head.',
        source: '29 CFR 1910.147(c)(4)(ii)(A)',
      };
      return;
    }
  },
};
