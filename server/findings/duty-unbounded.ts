import type { Action, Card, Seconds, Set as SetAction, Step } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { durationWords } from '../../shared/quantity.ts';
import type { DutyBreak } from '../proof/time/duty-breaks.ts';
import type { FindingSort } from './finding.ts';
import { stateName, stepsIn } from './support/card.ts';
import { dutyBreaks, runWords } from './support/duties.ts';
import { replace } from './support/edits.ts';
import { everyOne, nameIn } from './support/names.ts';
import { actionAt, stepAt } from './support/where.ts';
import { foundOn, pathPlace } from './support/words.ts';

export const dutyUnbounded: FindingSort = {
  code: 'duty.unbounded',
  level: 'error',
  title: 'Nothing ends a run in a known time',
  help: {
    what: 'An item enters a state that has a longest duty, and nothing on the path says how long it stays there: a step without a time comes between, or the card finishes or stops with it still running.',
    why: 'What has no known end can be longer than any limit.',
    whatToDo: 'Say “run … for”, or give the steps in between a “takes” with a longest time.',
  },
  sources: [],
  examples: [
    {
      given: `kind starter { off "Release {}", cranking "Hold {}" }
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s }`,
      bad: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set starter-1 cranking
  //   ^ duty.unbounded
  step "Look at the propeller."
  step set starter-1 off
}`,
      good: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 20 s
  step "Look at the propeller."
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of dutyBreaks(facts, 'unbounded')) {
      yield foundOn(
        fact,
        `Nothing ends ${runWords(fact)} in a known time; at most ${durationWords(fact.limit)} is allowed. Say “run … for”, or give what comes in between a “takes”.`,
        {
          path: fact.untimed ? [pathPlace(fact.untimed, 'nobody says how long this takes')] : [],
          fixes: runForAsLong(fact, facts.card),
        },
      );
    }
  },
};

/**
 * Says how long the item is at most in that state, where one action brings only this item there. Where that serves several items, each
 * of them has to be allowed as long.
 */
function runForAsLong({ item, duty, limit, place }: DutyBreak, card: Card): Fix[] {
  const step = stepAt(card, place);
  const every = step ? everyOne(card, step) : [];
  const sets = every.flatMap(({ statement }) => actionAt(statement, place) ?? []);
  const [set] = sets;
  if (!set || item.kind.seen || !sets.every((one) => setsOneFor(one, limit) && !isLookedAtBehind(one, card))) return [];
  const written = `run ${nameIn(item, every, [item])} ${stateName(item, duty.state)} for ${durationWords(limit)}`;
  return [{ title: `Change to: ${written}`, edits: [replace(set.place, written)] }];
}

/** It sets one item, which may be in that state for so long at most or longer. */
function setsOneFor(action: Step['actions'][number], limit: Seconds): action is SetAction {
  const [change, ...others] = action.type === 'set' ? action.changes : [];
  return (
    change !== undefined &&
    others.length === 0 &&
    change.item.duties.some(
      (duty) => duty.type === 'longest' && duty.state === change.state && duty.limit.compare(limit) >= 0,
    )
  );
}

/** Something is looked at or awaited before the item is set again: it would come too late, behind a run. */
function isLookedAtBehind(set: SetAction, card: Card): boolean {
  const items = set.changes.map(({ item }) => item);
  const actions = [...stepsIn(card.body)].flatMap(({ step }) => step.actions);
  const behind = actions.slice(actions.indexOf(set) + 1);
  const again = behind.findIndex((one) => one.type === 'set' && one.changes.some(({ item }) => items.includes(item)));
  return behind.slice(0, again < 0 ? behind.length : again).some(({ type }) => asking.has(type));
}

const asking: ReadonlySet<string> = new Set<Action['type']>(['check', 'read', 'bring', 'wait']);
