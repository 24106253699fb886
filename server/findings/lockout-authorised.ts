import type { Role } from '../../shared/card.ts';
import type { FindingSort } from './finding.ts';
import { locksPutOn, saw, sawCard } from './support/lockout.ts';

export const lockoutAuthorised: FindingSort = {
  code: 'lockout.authorised',
  level: 'warning',
  reads: [],
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
      given: saw,
      bad: sawCard('number "1" revision "A" purpose "Changes the blade." crew fitter "Fitter"', 'lockout.authorised'),
      good: sawCard(
        'number "1" revision "A" purpose "Changes the blade." crew fitter "Fitter" qualified "Authorised to lock and tag"',
      ),
    },
  ],
  *inCard({ card }) {
    const told = new Set<Role>();
    for (const { place, hands } of locksPutOn(card)) {
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
