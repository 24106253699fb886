import type { Item, Rule } from '../../shared/card.ts';
import { itemsIn } from '../../shared/conditions.ts';
import type { Fix } from '../../shared/finding.ts';
import type { ItemState } from '../proof/break.ts';
import type { RuleBreak } from '../proof/questions/rules.ts';
import type { FindingSort } from './finding.ts';
import { bringAboutAtFinishes, bringAboutBefore, bringAboutWhenStopped, type MendedCard } from './support/mends.ts';
import { neededFor, staysSo, toSet } from './support/needed.ts';
import { foundOn, hangsOnInWords, mendInWords, unmetInWords } from './support/words.ts';

export const safetyRule: FindingSort = {
  code: 'safety.rule',
  level: 'error',
  title: 'A rule is broken on some path',
  help: {
    what: 'There is a path through the card on which what the rule requires does not hold when it must: before an action, while something is so, at the end, or at a stop.',
    why: 'The rule says why: its “because” and its source stand with the finding.',
    whatToDo:
      'Follow the path in the finding, and put the step that makes the requirement true before the place where it breaks.',
  },
  sources: [],
  examples: [
    {
      given: `kind breaker { closed "Close {}", pulled "Pull {}" }
kind starter { off "Release {}", cranking "Hold {}" }
item ignition : breaker "the ignition breaker" normally closed
item starter-1 : starter "the starter" normally off
rule no-spark "No ignition while the engine is washed" {
  while starter-1 cranking
  require ignition pulled
  because "Fuel vapour can catch fire."
}`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 20 s
  //   ^ safety.rule
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set ignition pulled
  step run starter-1 cranking for 20 s
  step set ignition closed
}`,
    },
    {
      given: `kind pump { stopped "Stop {}", running "Start {}" }
kind guard { fitted "Fit {}", removed "Remove {}" }
item fan : pump "the fan"
item guard : guard "the guard" normally fitted
rule guarded "The guard is fitted while the fan runs" { while fan running require guard fitted }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set guard removed
  //   ^^^^^^^^^^^^^^^^^ safety.rule
  step set guard fitted
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step set fan stopped
  step set guard removed
  step set guard fitted
}`,
    },
  ],
  *inCard(facts) {
    for (const broken of facts.proof.rules) {
      const fixes = [mendFor(broken, facts), outOfTrigger(broken, facts)].flatMap((fix) => fix ?? []);
      yield foundOn(broken, messageOf(broken), {
        rule: broken.rule.name,
        ...(broken.rule.place.file.startsWith('std:') && { rulebook: broken.rule.place.file }),
        ...(broken.rule.sources.length > 0 && { source: broken.rule.sources.join('; ') }),
        fixes,
      });
    }
  },
};

function mendFor({ rule, unmet, mend, place }: RuleBreak, facts: MendedCard): Fix | undefined {
  const needed = mend ? toSet(mend) : neededFor(rule.require, unmet);
  if (!needed) return undefined;
  const { states, waits, reads } = needed;
  if (rule.trigger === 'while' && !staysSo(needed)) return undefined;
  if (rule.trigger === 'before' || rule.trigger === 'while')
    return bringAboutBefore(place, needed, facts, itemsOf(rule));
  if (waits.length > 0 || reads.length > 0) return undefined;
  return rule.trigger === 'at end'
    ? bringAboutAtFinishes([place], states, place, facts)
    : bringAboutWhenStopped(states, facts);
}

/** What the rule hangs on, and nobody has settled, brought out of its state before. */
function outOfTrigger({ rule, mayBeMet, place }: RuleBreak, facts: MendedCard): Fix | undefined {
  const states = mayBeMet.flatMap((term): readonly ItemState[] => {
    if (term.type !== 'item' || term.item.kind.seen) return [];
    const { item, wanted } = term;
    const state = wanted.length === 1 ? wanted[0] : wanted.find((one) => one === item.normally);
    return state === undefined ? [] : [{ item, state }];
  });
  return states.length === 1 ? bringAboutBefore(place, toSet(states), facts, itemsOf(rule)) : undefined;
}

function itemsOf({ condition }: Rule): readonly Item[] {
  return condition ? itemsIn(condition) : [];
}

function messageOf({ rule, unmet, mayBeMet, mend, hangsOn, sinceStart }: RuleBreak): string {
  const reasons = [...unmet, ...mayBeMet].map(unmetInWords).join(', and ');
  const nearest = mend?.length ? ` ${mendInWords(mend)}` : '';
  const inTheWay = hangsOn?.length ? ` ${hangsOnInWords(hangsOn)} Let the rule ask for what is set instead.` : '';
  const since = sinceStart ? ' It has been so since the start of the card.' : '';
  const because = rule.because.length > 0 ? ` ${rule.because.join(' ')}` : '';
  return `The rule “${rule.title}” (${rule.name}) is broken here: ${reasons || 'what it requires does not hold'}.${nearest}${inTheWay}${since}${because}`;
}
