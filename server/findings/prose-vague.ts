import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { sentencesToRead } from './support/prose.ts';
import { anyOf, within } from './support/sentences.ts';
import { DOE } from './support/sources.ts';

export const proseVague: FindingSort = {
  code: 'prose.vague',
  level: 'hint',
  title: 'A word leaves open how much, how long or when',
  help: {
    what: 'A step or an admonition uses a word of the setting vagueWords, such as “sufficient” or “as required”.',
    why: 'Two people will do two different things, and both have followed the card.',
    whatToDo: 'Say the quantity, the time or the condition: a limit of a gauge, a duration, an if.',
  },
  sources: [DOE('section 4: steps give limits that can be measured')],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Let sufficient water run through the hose."
  //        ^^^^^^^^^^ prose.vague
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Let 5 L of water run through the hose."
}`,
    },
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Wind up the hose properly."
  //                     ^^^^^^^^ prose.vague
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Wind up the hose."
}`,
    },
  ],
  *inFile({ file, parsed, settings }) {
    const vague = anyOf(settings.vagueWords);
    if (!vague) return;
    for (const { sentence } of sentencesToRead(parsed)) {
      for (const { 0: word, index } of sentence.text.matchAll(vague)) {
        const place = { file, ...within(sentence, index, word.length) };
        yield {
          place,
          message: `“${word}” leaves open what is to be done. Say how much, how long, or when.`,
          fixes: saysNothingMore(word) ? [withoutWord(word, place, parsed.text)] : [],
        };
      }
    }
  },
};

/** Without it the order is the same, and leaves nothing to the reader; “sufficient” stands for a quantity that is missing. */
const saysNothingMore = (word: string): boolean => /^(?:adequate|appropriate|proper|correct)ly$/iu.test(word);

/** With the blank or comma before it. */
function withoutWord(word: string, place: Place, text: string): Fix {
  const before = /(?:,?[ ]+)?$/u.exec(text.slice(0, place.start))?.[0].length ?? 0;
  return { title: `Take “${word}” out`, edits: [replace({ ...place, start: place.start - before }, '')] };
}
