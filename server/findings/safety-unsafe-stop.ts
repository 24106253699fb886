import type { Card, Condition, Item, Stage } from '../../shared/card.ts';
import { conditionsAskedBy, itemsIn } from '../../shared/conditions.ts';
import type { Fix } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { ItemState } from '../proof/break.ts';
import { configurations } from '../proof/facts.ts';
import type { UnsafeStop } from '../proof/questions/unsafe-stop.ts';
import type { CardFacts, FindingSort } from './finding.ts';
import { acceptanceOf } from './support/acceptances.ts';
import { bringAboutWhenStopped, type MendedCard } from './support/mends.ts';
import { stepAt } from './support/where.ts';
import { foundOn } from './support/words.ts';

export const safetyUnsafeStop: FindingSort = {
  code: 'safety.unsafe-stop',
  level: 'warning',
  title: 'The card can stop with a hazard still there',
  help: {
    what: 'A written stop, or a check that fails without an else, ends the card while a hazard is active. Each hazard is reported once a card, at the first such place, and once more where the first is accepted by itself.',
    why: 'A card that just ends leaves the crew beside a running machine with no next line to read.',
    whatToDo:
      'Write a stage for stops that makes the machine safe: stage "Make safe" when stopped { … }. Every stop goes through it.',
  },
  sources: [],
  examples: [
    {
      given: `kind cart { stopped "Stop {}", running "Start {}" }
item power-cart : cart "the power cart" normally stopped
hazard noise "noise" while power-cart running { warning "Noise can damage your hearing." }`,
      bad: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  //   ^ safety.unsafe-stop
  step set power-cart stopped
}`,
      good: `card power "Power" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning noise
  step set power-cart running
  step check "Is the cart free of smoke?"
  step set power-cart stopped
  stage "Make safe" when stopped {
    step set power-cart stopped
  }
}`,
    },
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
kind door { closed "Close {}", open "Open {}" }
item steam-valve : valve "the steam valve" normally open
item door : door "the door" normally closed`,
      bad: `hazard steam "steam" while steam-valve open { warning "Steam scalds." }
card look "Look" {
  number "1" revision "A" crew mechanic "Mechanic"
  warning steam
  step check "Is the room free of steam?"
  //   ^ safety.unsafe-stop
}`,
      good: `hazard steam "steam" while steam-valve open and door open { warning "Steam scalds." }
card look "Look" {
  number "1" revision "A" crew mechanic "Mechanic"
  step check "Is the room free of steam?"
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of firstOfEachHazard(facts)) {
      const fix = endHazard(fact, facts);
      yield foundOn(fact, messageOf(fact, facts.card), fix ? { fixes: [fix] } : {});
    }
  },
};

/** In the text, of those that one acceptance speaks of. */
function firstOfEachHazard({ card, proof }: CardFacts): Iterable<UnsafeStop> {
  const acceptance = acceptanceOf(card, safetyUnsafeStop.code);
  const first = new Map<string, UnsafeStop>();
  for (const stop of proof.unsafeStops.toSorted((a, b) => a.place.start - b.place.start))
    getOrInsert(first, `${stop.hazard.id} ${acceptance(stop.place)}`, () => stop);
  return first.values();
}

function messageOf({ hazard, place, configurations: on }: UnsafeStop, card: Card): string {
  const stages = card.body.filter((part): part is Stage => part.type === 'stage' && part.whenStopped);
  const sorts = configurations(card).filter(({ machines }) => !on || on.includes(machines));
  const isForNone = !sorts.some(({ includes }) => stages.some(({ only }) => includes(only)));
  const [stage] = stages;
  if (isHowItStands(hazard.condition))
    return `After a stop here there can still be ${hazard.label}, and the machine normally stands so. Let the hazard say what else makes it one: while … and …. Or put an end to it in a stage for stops.`;
  if (!stage)
    return `After a stop here there can still be ${hazard.label}. Put an end to it in a stage for stops: stage "Make safe" when stopped { … }.`;
  if (isForNone)
    return `After a stop here there can still be ${hazard.label}: the stage “when stopped” is not for this machine. Let it be for this one too, or write one that is, and put an end to it there.`;
  const isInside = stage.place.start <= place.start && place.end <= stage.place.end && stage.place.file === place.file;
  return isInside
    ? `The stage “when stopped” itself can stop here, with ${hazard.label} still there. Put an end to it before this, or let the check go on.`
    : `After a stop here there can still be ${hazard.label}: the stage “when stopped” does not put an end to it on every path. Let it do so first of all.`;
}

/** It is there while everything is in its normal state. */
function isHowItStands(condition: Condition): boolean {
  switch (condition.type) {
    case 'state':
      return condition.item.normally === condition.state && condition.lasting === undefined;
    case 'and':
      return condition.terms.every(isHowItStands);
    case 'or':
      return condition.terms.some(isHowItStands);
    case 'quantified':
      return isHowItStands(condition.written);
    default:
      return false;
  }
}

/** Sets back what the hazard hangs on when the card stops; where the card stops because that is not as it should be, nobody can. */
function endHazard({ hazard, place }: UnsafeStop, facts: MendedCard): Fix | undefined {
  const states = ending(hazard.condition);
  const failed = stepAt(facts.card, place)?.actions.flatMap(conditionsAskedBy).flatMap(itemsIn) ?? [];
  return states?.every(({ item }) => !failed.includes(item)) ? bringAboutWhenStopped(states, facts) : undefined;
}

/** The fewest items, each in a state in which it is no more so; undefined where it takes more than setting items. */
function ending(condition: Condition): readonly ItemState[] | undefined {
  switch (condition.type) {
    case 'state':
      return outOf(condition.item, condition.state);
    case 'quantified':
      return ending(condition.written);
    case 'and':
      return condition.terms
        .map(ending)
        .filter((states) => states !== undefined)
        .sort((a, b) => a.length - b.length)[0];
    case 'or': {
      const each = condition.terms.map(ending);
      return each.includes(undefined) ? undefined : each.flatMap((states) => states ?? []);
    }
    default:
      return undefined;
  }
}

/** Into its normal state, or the only other one that it has. */
function outOf(item: Item, state: number): readonly ItemState[] | undefined {
  if (item.kind.seen) return undefined;
  if (item.normally !== undefined && item.normally !== state) return [{ item, state: item.normally }];
  const others = item.kind.states.map((_, index) => index).filter((index) => index !== state);
  return item.normally === undefined && others.length === 1 ? [{ item, state: others[0] as number }] : undefined;
}
