import type { FindingSort } from './finding.ts';
import { type HandledItem, handledItems } from './support/hands.ts';
import { type FoundInCall, foundOnMachines } from './support/machines.ts';
import { type Followed, type Later, reaching } from './support/reaching.ts';
import { pathPlace } from './support/words.ts';

export const lockoutOtherHand: FindingSort = {
  code: 'lockout.other-hand',
  level: 'error',
  reads: ['proof'],
  title: 'A lock is taken off by somebody who did not put it on',
  help: {
    what: 'An energy isolator (“std:lockout”) is locked by one role and unlocked by another, and the card does not hand the locks over in between.',
    why: 'The lock protects whoever put it on. Another one does not know whether that person is still inside.',
    whatToDo:
      'Let the same role take the lock off, or hand the locks over before (“set lock-hand-over done”, 29 CFR 1910.147(f)(4)).',
  },
  sources: [{ title: '29 CFR 1910.147(e)(3) and (f)(4)', status: 'seen' }],
  examples: [
    {
      given: `use "std:lockout"
item saw     : lockout-machine "the saw" normally running
item switch-1 : energy-isolator "the switch of the saw" normally on`,
      bad: `card saw-blade "Saw blade" {
  number "1" revision "A" purpose "For changing the blade." crew fitter "Fitter" qualified "Authorised to lock and tag", mate "Mate"
  step by fitter set lockout-preparation done
  step by fitter set saw shut-down
  step by fitter set switch-1 off, switch-1 locked
  step by mate set everybody-clear done
  step by mate set switch-1 unlocked
  //               ^^^^^^^^^^^^^^^^^ lockout.other-hand
  step by mate set lockout-notice done
  step by mate set switch-1 on, saw running
}`,
      good: `card saw-blade "Saw blade" {
  number "1" revision "A" purpose "For changing the blade." crew fitter "Fitter" qualified "Authorised to lock and tag", mate "Mate"
  step by fitter set lockout-preparation done
  step by fitter set saw shut-down
  step by fitter set switch-1 off, switch-1 locked
  step by mate set everybody-clear done
  step by fitter set lock-hand-over done
  step by mate set switch-1 unlocked
  step by mate set lockout-notice done
  step by mate set switch-1 on, saw running
}`,
    },
  ],
  inCard({ card, proof }) {
    const all = [...handledItems(card, 'std:lockout')];
    const unlocked = reaching(proof, all, locks, isTakenOff);
    return foundOnMachines(card, (_, machines) => unlocked(machines).flatMap(otherHand));
  },
};

/** A lock stands until it is taken off, another one is put on in its place, or all are handed over. */
const locks: Followed = {
  begins: ({ kind, becomes }) => kind === 'energy-isolator' && becomes === 'locked',
  ends: (later, lock) => (later.kind === 'lock-change' ? later.becomes === 'done' : isTakenOff(later, lock)),
};

function isTakenOff({ item, becomes }: HandledItem, lock: HandledItem): boolean {
  return item === lock.item && becomes === 'unlocked';
}

function otherHand({ item, place, hands, call, earlier }: Later): FoundInCall[] {
  const [hand] = hands;
  const others = earlier.filter((one) => !one.hands.some((role) => hands.includes(role)));
  const lock = others.find((one) => one.hands.length > 0);
  const [owner] = lock?.hands ?? [];
  if (!hand || !lock || !owner) return [];
  return [
    {
      place,
      call,
      message: `${hand.label} takes the lock off ${item.label}, and ${owner.label} put it on. Let ${owner.label} take it off, or hand the locks over before.`,
      source: '29 CFR 1910.147(e)(3)',
      path: [pathPlace(lock.place, `${owner.label} puts the lock on ${item.label}`)],
    },
  ];
}
