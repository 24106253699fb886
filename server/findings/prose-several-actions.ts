import type { Step, Text } from '../../grammar/syntax.ts';
import type { Fix } from '../../shared/finding.ts';
import { capital, type Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { insertAfter, replace } from './support/edits.ts';
import { noInstruction, sentencesToRead } from './support/prose.ts';
import { anyOf, isOrderAt, within, withoutCondition } from './support/sentences.ts';
import { DOE, STE } from './support/sources.ts';
import { headOf } from './support/text-as-steps.ts';

/** Orders that are ticked too, beside those that operate equipment. */
const others = [
  'check',
  'insert',
  'monitor',
  'perform',
  'place',
  'reconnect',
  'reinstall',
  'restore',
  'return',
  'verify',
];
/** `to loosen and remove the dirt`, `that can start and stop it`: what the order is for, or what its thing does. */
const inClause = /\b(?:to|that|which|who|can|may|must|will|you|they)\s+(?:\p{L}+ly\s+)?\p{L}+\s+$/iu;
/** Words that say that two things are meant to happen at once, which one sentence may then say. */
const forbids = /^(?:do not|never)\b/iu;
const atOnce = /\b(?:while|at the same time|simultaneously|together)\b/iu;

export const proseSeveralActions: FindingSort = {
  code: 'prose.several-actions',
  level: 'hint',
  title: 'A sentence asks for several actions',
  help: {
    what: 'A sentence of a step asks for a second action (“… and install …”). The verbs are those of the setting actionVerbs.',
    why: 'One tick stands for two actions, so a reader who is called away cannot see which of them is done.',
    whatToDo: 'Write a step for each action. Where both must happen at once, say “at the same time”.',
  },
  sources: [
    STE('5.2: one instruction in a sentence unless they are done at the same time'),
    DOE('section 4: one action in a step'),
  ],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Remove the bolts and install the cover."
  //                     ^^^^^^^^^^^ prose.several-actions
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Remove the bolts."
  step "Install the cover."
}`,
    },
  ],
  *inFile({ file, parsed, settings }) {
    const secondAction = anyOf([...settings.actionVerbs, ...others], '(?:\\band(?: then)?|\\bthen|;|,)\\s+', 'iu');
    if (!secondAction) return;
    for (const { sentence, text, by } of sentencesToRead(parsed)) {
      if (by.type !== 'step') continue;
      const main = withoutCondition(sentence.text);
      const second = secondAction.exec(main.text);
      if (!second || !isOrderAt(second, main.text) || inClause.test(main.text.slice(0, second.index))) continue;
      if (noInstruction.test(main.text) || forbids.test(main.text) || atOnce.test(sentence.text)) continue;
      const place = { file, ...within(sentence, main.from + second.index, second[0].length) };
      yield {
        place,
        message: 'This sentence asks for more than one action. Write a step for each, or say “at the same time”.',
        fixes: main.from === 0 ? inTwoSteps(by, text, place, parsed.text) : [],
      };
    }
  },
};

/** The second action and what is said after it in a step of its own, by the same roles; where the step says nothing else. */
function inTwoSteps(step: Step, text: Text, second: Place, source: string): Fix[] {
  const bare = step.parts.every(({ type }) => type === 'by' || type === 'text') && step.actions.length === 0;
  if (!bare || step.parts.at(-1) !== text || text.strings.length > 1) return [];
  const link = /^(?:,?\s*(?:and(?: then)?|then)|;|,)\s+/iu.exec(source.slice(second.start, second.end))?.[0] ?? '';
  const rest = source.slice(second.start + link.length, text.end - 1);
  const first = source.slice(0, second.start).trimEnd().replace(/[,;]$/u, '');
  const end = { file: second.file, start: first.length, end: text.end };
  const next = insertAfter({ ...end, start: step.start }, `${headOf(step)} "${capital(rest)}"`, () => source);
  return [{ title: 'Make two steps of it', edits: [replace(end, '."'), next] }];
}
