import { all } from '../../grammar/navigate.ts';
import type * as syntax from '../../grammar/syntax.ts';
import type { Admonition, Text } from '../../grammar/syntax.ts';
import type { Equipment, Item } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import { recognise } from '../prose/recognise.ts';
import { plainWords } from '../prose/tokens.ts';
import type { FindingSort } from './finding.ts';
import { insertAfter, replace } from './support/edits.ts';
import { inSentences, seenAt } from './support/prose.ts';
import { anyOf, within, withoutCondition } from './support/sentences.ts';
import { humanFactorsNotes, STE } from './support/sources.ts';

export const proseActionInAdmonition: FindingSort = {
  code: 'prose.action-in-admonition',
  level: 'warning',
  reads: ['words'],
  title: 'An admonition asks for a step of the work',
  help: {
    what: 'A sentence of a danger, warning, caution or note begins with a verb that operates equipment (setting actionVerbs). Where a step of the file does the same as an action, it only reminds of it, and is no finding.',
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
  inTexts: inSentences({
    only: 'admonition',
    see:
      ({ actionVerbs }) =>
      (sentence) => {
        const { text, from } = withoutCondition(sentence);
        return seenAt(anyOf(actionVerbs, '^(?:please |then )?', 'iu')?.exec(text), from);
      },
    tell: ({ from, words }, { by, text, sentence }, { file, parsed, bound }) => {
      if (isDoneByStep(sentence.text.slice(from), words, parsed.file, bound.equipment)) return undefined;
      return {
        message: `“${words}” asks for a step of the work, which nobody can tick here. Write it as a step of its own.`,
        fixes:
          by.type === 'admonition'
            ? stepInstead(by, text, { file, ...within(sentence, 0, sentence.text.length) }, parsed.text)
            : [],
      };
    },
  }),
};

const separating = /^(?:isolate|lock|secure|disconnect|de-?energi[sz]e|depressuri[sz]e)$/i;

/** A reminder of what a step really does: the same action, or for `Isolate the drive` that of `the drive isolator`. */
function isDoneByStep(sentence: string, verb: string, file: syntax.File, equipment: Equipment): boolean {
  const done = all(file, 'item-state');
  const isSet = (item: Item, fits: (state: string) => boolean) =>
    done.some((one) => one.item.text === item.name && one.state !== undefined && fits(one.state.text));
  const [said] = recognise({ sentences: [sentence], language: 'en' }, equipment);
  if (said?.sort === 'set')
    return said.about.every(
      (thing) => 'kind' in thing && isSet(thing, (state) => state === thing.kind.states[said.state ?? -1]?.name),
    );
  if (!separating.test(verb)) return false;
  const object = plainWords(
    sentence.slice(verb.length).split(/[,.;:]|\b(?:before|until|while|when|and)\b/i, 1)[0] ?? '',
  );
  return equipment.items.some((item) => {
    const label = plainWords(item.label);
    const { kind, normally } = item;
    const isOf = object.length > 0 && label.length > object.length && object.every((word) => label.includes(word));
    return isOf && isSet(item, (state) => state !== kind.states[normally ?? -1]?.name);
  });
}

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
