import type { FindingSort } from './finding.ts';
import { locksPutOn, saw, sawCard } from './support/lockout.ts';

export const lockoutPurpose: FindingSort = {
  code: 'lockout.purpose',
  level: 'warning',
  reads: [],
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
      given: saw,
      bad: sawCard(
        'number "1" revision "A" crew fitter "Fitter" qualified "Authorised to lock and tag"',
        'lockout.purpose',
      ),
      good: sawCard(
        'number "1" revision "A" purpose "For changing the blade." crew fitter "Fitter" qualified "Authorised to lock and tag"',
      ),
    },
  ],
  *inCard({ card }) {
    const [first] = card.purpose === undefined ? locksPutOn(card) : [];
    if (!first) return;
    yield {
      place: first.place,
      message: 'This card locks energy out and does not say for which work. Write “purpose "…"” in its head.',
      source: '29 CFR 1910.147(c)(4)(ii)(A)',
    };
  },
};
