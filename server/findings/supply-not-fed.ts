import type { Fix } from '../../shared/finding.ts';
import type { NotFed } from '../proof/facts.ts';
import type { FindingSort } from './finding.ts';
import { bringAboutBefore, type MendedCard, undoesWhatIsDone } from './support/mends.ts';
import { toSet } from './support/needed.ts';
import { foundOn, hangsOnInWords, mendInWords, stateName } from './support/words.ts';

export const supplyNotFed: FindingSort = {
  code: 'supply.not-fed',
  level: 'error',
  title: 'An item has not got the supply that it needs',
  help: {
    what: 'An item is in a state for which it “needs” a supply, and on some path no source that is on reaches it over closed links.',
    why: 'It will not work, or will stop in the middle of its work.',
    whatToDo:
      'The finding names the fewest changes that feed it: make them before this step. Where this step cuts the supply on purpose, bring the item to rest before.',
  },
  sources: [],
  examples: [
    {
      given: `kind plug { apart "Disconnect {}", connected "Connect {}" }
kind pump { stopped "Stop {}", running "Start {}" }
item mains : plug "the mains plug" normally apart
item pump-1 : pump "the pump" normally stopped needs mains-power while running
supply mains-power "mains power" {
  source socket
  link socket -> pump-1 when mains connected
}`,
      bad: `card pumping "Pump" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set pump-1 running
  //   ^ supply.not-fed
  step set pump-1 stopped
}`,
      good: `card pumping "Pump" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set mains connected
  step set pump-1 running
  step set pump-1 stopped
  step set mains apart
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of facts.proof.notFed) {
      const mend = isCutHere(fact, facts) ? undefined : fact.mend;
      const fix = mend ? bringAboutBefore(fact.place, toSet(mend), facts) : endFirst(fact, facts);
      yield foundOn(fact, messageOf(fact, mend), fix ? { fixes: [fix] } : {});
    }
  },
};

/** The supply goes because of what is done here on purpose, such as an isolation: then the item has to be out of that state first. */
function isCutHere({ mend, place }: NotFed, { card }: MendedCard): boolean {
  return mend !== undefined && undoesWhatIsDone(mend, place, card);
}

/** Brings the item out of the state before that, where there is one plain state to bring it to. */
function endFirst({ item, state, place }: NotFed, facts: MendedCard): Fix | undefined {
  const others = item.kind.states.map((_, index) => index).filter((index) => index !== state);
  const rest =
    item.normally !== undefined && item.normally !== state
      ? item.normally
      : others.length === 1
        ? others[0]
        : undefined;
  return rest === undefined || item.kind.seen
    ? undefined
    : bringAboutBefore(place, toSet([{ item, state: rest }]), facts);
}

function messageOf({ item, state, supply, mend, hangsOn }: NotFed, offered: NotFed['mend']): string {
  const isState = stateName(item, state);
  if (mend && !offered) {
    return `${item.label} may still be ${isState} here, and loses ${supply.label} with this step. End that first, or look that it is over.`;
  }
  const advice = mend?.length ? mendInWords(mend) : noMend(hangsOn);
  return `${supply.label} may not reach ${item.label} here, and must while ${isState}. ${advice}`;
}

function noMend(hangsOn: NotFed['hangsOn']): string {
  if (!hangsOn?.length) return 'Nothing that can be set would feed it here.';
  return `${hangsOnInWords(hangsOn)} Let the supply hang on what is set instead, such as the switch behind it.`;
}
