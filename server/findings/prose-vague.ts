import type { FindingSort } from './finding.ts';
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
  ],
  *inFile({ file, parsed, settings }) {
    const vague = anyOf(settings.vagueWords);
    if (!vague) return;
    for (const { sentence } of sentencesToRead(parsed)) {
      for (const { 0: word, index } of sentence.text.matchAll(vague)) {
        yield {
          place: { file, ...within(sentence, index, word.length) },
          message: `“${word}” leaves open what is to be done. Say how much, how long, or when.`,
        };
      }
    }
  },
};
