import { durationWords } from '../../shared/quantity.ts';
import type { DutyBreak } from '../proof/time/duty-breaks.ts';
import type { FindingSort } from './finding.ts';
import { addWait, dutyBreaks, runWords } from './support/duties.ts';
import { ordinal } from './support/paths.ts';
import { foundOn } from './support/words.ts';

export const dutyTooOften: FindingSort = {
  code: 'duty.too-often',
  level: 'error',
  title: 'One run more than the duty allows',
  help: {
    what: 'On some path an item is run more times than its duty allows before a long rest, or within a window of time. A window is half open: with “3 times in 1 h” the fourth start may come exactly one hour after the first.',
    why: 'Each run by itself is short enough, and together they are too much.',
    whatToDo: 'Add the long rest, or repeat fewer times.',
  },
  sources: [],
  examples: [
    {
      given: `kind starter { off "Release {}", cranking "Hold {}" }
item starter-1 : starter "the starter" normally off { duty cranking at most 2 times, then rest 30 min }`,
      bad: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 30 s
  step wait 60 s
  step run starter-1 cranking for 30 s
  step wait 60 s
  step run starter-1 cranking for 30 s
  //   ^ duty.too-often
}`,
      good: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 30 s
  step wait 60 s
  step run starter-1 cranking for 30 s
  step wait 30 min
  step run starter-1 cranking for 30 s
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of dutyBreaks(facts, 'too-often')) {
      yield foundOn(fact, messageOf(fact), { fixes: addWait(facts, fact) });
    }
  },
};

function messageOf(fact: DutyBreak): string {
  const { duty, count } = fact;
  const run = count === undefined ? 'one of many runs' : `the ${ordinal(count)} run`;
  const missing = fact.missing ? ` ${durationWords(fact.missing)} is missing.` : '';
  const worst = fact.worst ? durationWords(fact.worst) : '0 s';
  if (duty.type === 'times-in-window') {
    const allowed = `at most ${duty.times} may start in ${durationWords(duty.window)}`;
    return `${runWords(fact)}: this can be ${run} within ${worst}, and ${allowed}.${missing}`;
  }
  const due = duty.type === 'times-then-rest' ? `, which is due after ${duty.times}` : '';
  return `${runWords(fact)}: this can be ${run} without a rest of ${durationWords(fact.limit)}${due}; the longest that is sure is ${worst}.${missing}`;
}
