import type { NotFed } from '../proof/facts.ts';
import type { FindingSort } from './finding.ts';
import { bringAboutBefore } from './support/mends.ts';
import { toSet } from './support/needed.ts';
import { foundOn, hangsOnInWords, mendInWords, stateName } from './support/words.ts';

export const supplyNotFed: FindingSort = {
  code: 'supply.not-fed',
  level: 'error',
  title: 'An item has not got the supply that it needs',
  help: {
    what: 'An item is in a state for which it “needs” a supply, and on some path no source that is on reaches it over closed links.',
    why: 'It will not work, or will stop in the middle of its work.',
    whatToDo: 'The finding names the fewest changes that feed it: make them before this step.',
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
      const fix = fact.mend && bringAboutBefore(fact.place, toSet(fact.mend), facts);
      yield foundOn(fact, messageOf(fact), fix ? { fixes: [fix] } : {});
    }
  },
};

function messageOf({ item, state, supply, mend, hangsOn }: NotFed): string {
  const advice = mend?.length ? mendInWords(mend) : noMend(hangsOn);
  return `${supply.label} may not reach ${item.label} here, and must while ${stateName(item, state)}. ${advice}`;
}

function noMend(hangsOn: NotFed['hangsOn']): string {
  if (!hangsOn?.length) return 'Nothing that can be set would feed it here.';
  return `${hangsOnInWords(hangsOn)} Let the supply hang on what is set instead, such as the switch behind it.`;
}
