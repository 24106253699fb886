import type { Fix } from '../../shared/finding.ts';
import type { NotFed } from '../proof/questions/not-fed.ts';
import type { CardFacts, FindingSort } from './finding.ts';
import { acceptanceOf } from './support/acceptances.ts';
import { stateName } from './support/card.ts';
import { bringAboutBefore, isBroughtThere, type MendedCard, undoesWhatIsDone } from './support/mends.ts';
import { toSet } from './support/needed.ts';
import { foundOn, hangsOnInWords, mendInWords } from './support/words.ts';

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
    for (const [fact, ...later] of byCause(facts)) {
      const fix = fixFor(fact, facts);
      const again = later.map(({ place, item }) => ({ place, text: `so it is for ${item.label} here` }));
      const message = `${messageOf(fact, isCutHere(fact, facts))}${againInWords(later)}`;
      yield foundOn(fact, message, { path: again, fixes: fix ? [fix] : [] });
    }
  },
};

/** Where one thing keeps a supply away from several, or from one several times, it is told at the first. */
function byCause({ card, proof }: CardFacts): [NotFed, ...NotFed[]][] {
  const acceptance = acceptanceOf(card, supplyNotFed.code);
  const told = new Map<string, [NotFed, ...NotFed[]]>();
  for (const [index, fact] of proof.notFed.entries()) {
    const { supply, mend = [], causes, configurations, blended, place } = fact;
    const changes = mend.map(({ item, state }, at) => [item.id, state, causes[at]?.file, causes[at]?.start]);
    const key =
      mend.length > 0 ? JSON.stringify([supply.id, changes, configurations, blended, acceptance(place)]) : `${index}`;
    const known = told.get(key);
    if (known) known.push(fact);
    else told.set(key, [fact]);
  }
  return [...told.values()];
}

function againInWords({ length }: readonly NotFed[]): string {
  if (length === 0) return '';
  return ` The same is missing at ${length === 1 ? 'one later place' : `${length} later places`}.`;
}

/** What was done on purpose, such as an isolation, is not undone. */
function fixFor(fact: NotFed, facts: MendedCard): Fix | undefined {
  const { mend, place } = fact;
  if (mend && !undoesWhatIsDone(mend, place, facts.card))
    return bringAboutBefore(place, toSet(mend), facts, [fact.item]);
  return isBroughtThere(fact, place, facts.card) ? undefined : endFirst(fact, facts);
}

/** The supply goes because of what is done here on purpose: then the item has to be out of that state first. */
function isCutHere(fact: NotFed, { card }: MendedCard): boolean {
  const { mend, place } = fact;
  return mend !== undefined && undoesWhatIsDone(mend, place, card) && !isBroughtThere(fact, place, card);
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
    : bringAboutBefore(place, toSet([{ item, state: rest }]), facts, [item]);
}

function messageOf({ item, state, supply, mend, hangsOn }: NotFed, isCut: boolean): string {
  const isState = stateName(item, state);
  if (isCut) {
    return `${item.label} may still be ${isState} here, and loses ${supply.label} with this step. End that first, or look that it is over.`;
  }
  const advice = mend?.length ? mendInWords(mend) : noMend(hangsOn);
  return `${supply.label} may not reach ${item.label} here, and must while ${isState}. ${advice}`;
}

function noMend(hangsOn: NotFed['hangsOn']): string {
  if (!hangsOn?.length) return 'Nothing that can be set would feed it here.';
  return `${hangsOnInWords(hangsOn)} Let the supply hang on what is set instead, such as the switch behind it.`;
}
