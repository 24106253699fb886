import { durationWords } from '../../shared/quantity.ts';
import type { FindingSort } from './finding.ts';
import { dutyBreaks, runWords, shorten } from './support/duties.ts';
import { foundOn } from './support/words.ts';

export const dutyTooLong: FindingSort = {
  code: 'duty.too-long',
  level: 'error',
  title: 'A run can last longer than its duty allows',
  help: {
    what: 'On some path an item stays in a state longer than its “duty … at most” says, counted in the worst case: the longest that each time can be.',
    why: 'A starter, a pump or a heater that runs too long burns out, or takes something with it.',
    whatToDo: 'Shorten the run, or end it earlier.',
  },
  sources: [],
  examples: [
    {
      given: `kind starter { off "Release {}", cranking "Hold {}" }
item starter-1 : starter "the starter" normally off { duty cranking at most 30 s }`,
      bad: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 31 s
  //   ^ duty.too-long
}`,
      good: `card crank "Crank" {
  number "1" revision "A" crew mechanic "Mechanic"
  step run starter-1 cranking for 30 s
}`,
    },
  ],
  *inCard(facts) {
    for (const fact of dutyBreaks(facts, 'too-long')) {
      const figure = fact.worst ? durationWords(fact.worst) : 'too long';
      const excess = fact.missing ? `, ${durationWords(fact.missing)} too long` : '';
      yield foundOn(
        fact,
        `${runWords(fact)} can last ${figure}${excess}; at most ${durationWords(fact.limit)} is allowed. End the run earlier.`,
        { fixes: shorten(fact, facts.card, facts.textOf) },
      );
    }
  },
};
