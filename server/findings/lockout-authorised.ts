import type { Role } from '../../shared/card.ts';
import type { FindingSort } from './finding.ts';
import { handledItems } from './support/hands.ts';

export const lockoutAuthorised: FindingSort = {
  code: 'lockout.authorised',
  level: 'warning',
  title: 'A lock is put on by a role that is not said to be authorised',
  help: {
    what: 'An energy isolator (“std:lockout”) is locked by a role of which the crew does not say what it must be qualified for.',
    why: 'Only those who have learnt to know the energy put locks on. A crew that reads “Fitter” sends whoever is free.',
    whatToDo:
      'Say it in the crew (“fitter "Fitter" qualified "Authorised to lock and tag"”), or let a role lock that is.',
  },
  sources: [{ title: '29 CFR 1910.147(d)(4)(i): affixed by authorised employees', status: 'from memory' }],
  examples: [
    {
      given: `use "std:lockout"
item saw     : lockout-machine "the saw" normally running
item switch-1 : energy-isolator "the switch of the saw" normally on`,
      bad: `card saw-blade "Saw blade" {
  number "1" revision "A" purpose "Changes the blade." crew fitter "Fitter"
  step set lockout-preparation done
  step set saw shut-down
  step set switch-1 off, switch-1 locked
  //                     ^^^^^^^^^^^^^^^ lockout.authorised
  step set everybody-clear done
  step set switch-1 unlocked
  step set lockout-notice done
  step set switch-1 on, saw running
}`,
      good: `card saw-blade "Saw blade" {
  number "1" revision "A" purpose "Changes the blade." crew fitter "Fitter" qualified "Authorised to lock and tag"
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
    const told = new Set<Role>();
    for (const { kind, becomes, place, hands } of handledItems(card.body, 'std:lockout')) {
      if (kind !== 'energy-isolator' || becomes !== 'locked') continue;
      const who = hands.length === 0 && card.crew.length === 1 ? card.crew : hands;
      const [role] = who;
      if (!role || told.has(role) || who.some(({ qualified }) => qualified !== undefined)) continue;
      told.add(role);
      yield {
        place,
        message: `${role.label} puts a lock on, and the crew does not say that ${role.label} is authorised to. Add “qualified "Authorised to lock and tag"”, or let another role lock.`,
        source: '29 CFR 1910.147(d)(4)(i)',
      };
    }
  },
};
