import type { Admonition, Text } from '../../grammar/syntax.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { insertAfter, replace } from './support/edits.ts';
import { proseOf } from './support/prose.ts';
import { anyOf, sentencesOf, within, withoutCondition } from './support/sentences.ts';
import { humanFactorsNotes, STE } from './support/sources.ts';

export const proseActionInAdmonition: FindingSort = {
  code: 'prose.action-in-admonition',
  level: 'warning',
  title: 'An admonition asks for a step of the work',
  help: {
    what: 'A sentence of a danger, warning, caution or note begins with a verb that operates equipment (setting actionVerbs).',
    why: 'An admonition has no box to tick and no role: what it asks for is read and not done, and no proof can see it.',
    whatToDo:
      'Write the action as a step after the admonition. Leave in it the hazard, what it does, and how to keep clear of it.',
  },
  sources: [
    humanFactorsNotes('parts B and C: a warning or caution never contains an action step'),
    STE('5.5: notes give information, not instructions'),
  ],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  caution "Water spoils the igniters. Close the left wash valve."
  //                                  ^^^^^ prose.action-in-admonition
  step "Look at the hose."
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  caution "Water spoils the igniters."
  step "Close the left wash valve."
}`,
    },
  ],
  *inFile({ file, parsed, settings }) {
    const action = anyOf(settings.actionVerbs, '^(?:please |then )?', 'iu');
    if (!action) return;
    for (const { text, by, of } of proseOf(parsed.file)) {
      if (of !== 'admonition') continue;
      for (const sentence of sentencesOf(text, parsed.text)) {
        const main = withoutCondition(sentence.text);
        const verb = action.exec(main.text);
        if (!verb) continue;
        yield {
          place: { file, ...within(sentence, main.from, verb[0].length) },
          message: `“${verb[0]}” asks for a step of the work, which nobody can tick here. Write it as a step of its own.`,
          fixes: by.type === 'admonition' ? stepInstead(by, text, { ...sentence, file }, parsed.text) : [],
        };
      }
    }
  },
};

/** The sentence as a step after the admonition, which goes where it says nothing else. */
function stepInstead(admonition: Admonition, text: Text, sentence: Place, source: string): Fix[] {
  if (text.strings.length > 1 || admonition.only) return [];
  const { file, start, end } = sentence;
  const step = `step "${source.slice(start, end)}"`;
  const before = source.slice(text.start + 1, start);
  const after = source.slice(end, text.end - 1);
  const place = { file, start: admonition.start, end: admonition.end };
  if (`${before}${after}`.trim() === '' && !admonition.hazard)
    return [{ title: 'Make a step of it', edits: [replace(place, step)] }];
  const left = [before.trim(), after.trim()].filter((part) => part !== '').join(' ');
  return [
    {
      title: 'Make a step of it, after this',
      edits: [replace({ file, start: text.start, end: text.end }, `"${left}"`), insertAfter(place, step, () => source)],
    },
  ];
}
