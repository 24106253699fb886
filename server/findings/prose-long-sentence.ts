import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { FileFacts, FindingSort, Found } from './finding.ts';
import { replace } from './support/edits.ts';
import { inSentences, type Prose } from './support/prose.ts';
import { countWords, mostRead } from './support/sentences.ts';
import { STE } from './support/sources.ts';

export const proseLongSentence: FindingSort = {
  code: 'prose.long-sentence',
  level: 'hint',
  reads: ['words'],
  title: 'A sentence is too long to be held in mind',
  help: {
    what: 'A sentence of a step or an admonition has more words than the setting longestSentence allows (20). A quantity, a name in a slot, a group with hyphens and what stands in parentheses count as one word.',
    why: 'The reader looks away from the card to do the work, and does what is still in mind.',
    whatToDo: 'Make two sentences of it, or two steps.',
  },
  sources: [STE('5.1: at most 20 words in a sentence of a procedure')],
  examples: [
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Make sure that nobody stands in front of the intake or behind the exhaust while the pump runs and the hose is under pressure."
  //    ^ prose.long-sentence
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Make sure that nobody stands in front of the intake or behind the exhaust. This holds while the pump runs."
}`,
    },
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "The guard stands between the cart and the intake where the driver can see both hands, and nobody else comes near the rope."
  //    ^ prose.long-sentence
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "The guard stands between the cart and the intake where the driver can see both hands. Nobody else comes near the rope."
}`,
    },
  ],
  inTexts: {
    texts: (facts) => tooLong.texts(facts),
    *inText(prose: Prose, facts) {
      yield* notRead(prose, facts);
      yield* tooLong.inText(prose, facts);
    },
  },
};

function* notRead({ text: { start, end } }: Prose, { file }: FileFacts): Iterable<Found> {
  const message = `Of this text only the first ${mostRead} characters are read. Make several steps of it.`;
  if (end - start > mostRead) yield { place: { file, start, end }, message };
}

const tooLong = inSentences({
  see:
    ({ longestSentence }) =>
    (sentence) => {
      const count = countWords(sentence);
      return count > longestSentence ? [{ from: 0, words: sentence, count }] : [];
    },
  tell: ({ count }, { place }, { parsed, settings }) => ({
    fixes: inTwo(place, parsed.text),
    message: `This sentence has ${count} words; more than ${settings.longestSentence} are hard to hold in mind. Make two of it.`,
  }),
});

const joints = /(?:;|,? and then|, then|, and)\s+(?=\p{L})/u;

/** Where two sentences are joined, so that nothing but the joint has to change. */
function inTwo(place: Place, text: string): Fix[] {
  const joint = joints.exec(text.slice(place.start, place.end));
  if (!joint) return [];
  const start = place.start + joint.index;
  const second = start + joint[0].length;
  const between = joint[0].includes('then') ? '. Then ' : '. ';
  const first = text.slice(second, second + 1);
  const newText = between === '. ' ? between + first.toUpperCase() : between + first;
  return [{ title: 'Make two sentences of it', edits: [replace({ ...place, start, end: second + 1 }, newText)] }];
}
