import { durationWords } from '../../shared/quantity.ts';
import type { FindingSort } from './finding.ts';
import { addWait, dutyBreaks, runWords } from './support/duties.ts';
import { foundOn } from './support/words.ts';

export const dutyShortRest: FindingSort = {
  code: 'duty.short-rest',
  level: 'error',
  title: 'A run can start before the rest after the last one is over',
  help: {
    what: 'On some path the rest between two runs is shorter than the duty asks for, counted in the worst case: the shortest that each time can be. What has no time counts as none.',
    why: 'Heat from the last run is still there, and adds up.',
    whatToDo: 'Add the wait that is missing; the quick fix does.',
  },
  sources: [],
  examples: [
    {
      given: `kind starter { off "Release {}", cranking "Hold {}" }
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }`,
      bad: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 30 s
  step wait 59 s
  step run starter-1 cranking for 30 s
  //   ^ duty.short-rest
}`,
      good: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 30 s
  step wait 60 s
  step run starter-1 cranking for 30 s
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of dutyBreaks(facts, 'short-rest')) {
      const rest = fact.worst ? durationWords(fact.worst) : '0 s';
      const missing = fact.missing ? ` ${durationWords(fact.missing)} of rest is missing.` : '';
      yield foundOn(
        fact,
        `${runWords(fact)} can start again after ${rest} of rest; ${durationWords(fact.limit)} is needed.${missing}`,
        { fixes: addWait(facts, fact) },
      );
    }
  },
};
