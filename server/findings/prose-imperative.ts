import { matchesOf } from '../../shared/text.ts';
import { sortsOf } from '../prose/english.ts';
import type { FindingSort } from './finding.ts';
import { inSentences, seenAt } from './support/prose.ts';
import { withoutCondition } from './support/sentences.ts';
import { DOE, STE } from './support/sources.ts';

/** `must be tagged`, `shall be carefully removed`. */
const toBeDone =
  /\b(?:must|shall|should|will|(?:is|are|has|have|needs?) to)\s+(?:(?:also|always|first|never|not|then)\s+)?be\s+(?:\p{L}+ly\s+)?(\p{L}+(?:d|n|t|ne))(?!\p{L})/giu;
/** `The mechanic shall inspect`. */
const somebodyMust =
  /(?:^|,\s)(?:the\s+)?(?:\p{L}+\s+){0,2}(?:personnel|crew|mechanic|technician|operator|worker|inspector|employee|driver|attendant|supervisor|representative|user|you)s?\s+(?:must|shall|should|will|(?:has|have|needs?) to)\s+(?!not be\b|be\b|(?:not )?(?:feel|find|get|hear|know|notice|see)\b)(?:not\s+)?\p{L}+/giu;
/** What is so or is noticed, and not what is done. */
const state =
  /^(?:allowed|authorized|based|caused|considered|displayed|exposed|expected|felt|found|heard|illuminated|indicated|injured|intended|involved|limited|lit|located|needed|noted|noticed|observed|permitted|qualified|required|seen|shown|supposed|used|visible)$/i;

export const proseImperative: FindingSort = {
  code: 'prose.imperative',
  level: 'hint',
  reads: ['words'],
  title: 'A step tells what must be done, and gives no order',
  help: {
    what: 'A sentence of a step says that something must or shall be done, or that somebody must do it. It does not begin with the verb.',
    why: 'It reads like a rule, not like work: who holds the card does not know whether it is to be done here and now, and by whom.',
    whatToDo: 'Begin with the verb: “Tag the hoses.” If it is a state to be found, write “Make sure that …”.',
  },
  sources: [STE('5.3: the imperative'), DOE('section 4: a step begins with its verb')],
  examples: [
    {
      bad: `card tag "Tag" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "All hoses must be tagged before they are removed."
  //              ^^^^^^^^^^^^^^ prose.imperative
}`,
      good: `card tag "Tag" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Tag all hoses before you remove them."
}`,
    },
  ],
  inTexts: inSentences({
    only: 'step',
    see: () => (sentence) => {
      const { text, from } = withoutCondition(sentence);
      return seenAt(orderless(text), from);
    },
    tell: () => ({ message: 'This tells what must be done, and not to do it. Begin with the verb.' }),
  }),
};

/** The words that say so are looked for first: what sort each word is takes longer to find out. */
function orderless(sentence: string): RegExpExecArray | undefined {
  const [by] = matchesOf(somebodyMust, sentence);
  const said = by ?? matchesOf(toBeDone, sentence).find((found) => isDone(found, sentence));
  return said && !startsWithOrder(sentence) ? said : undefined;
}

function isDone({ 0: whole, 1: done = '', index }: RegExpExecArray, sentence: string): boolean {
  const sort = sortsOf(sentence).get(index + whole.length - done.length);
  const ofThing = /\b(?:that|which|who)\s$/i.test(sentence.slice(0, index));
  return sort?.root !== undefined && !sort.going && !state.test(done) && !ofThing;
}

/** `Make sure that the bolt will be seen`, `Do not use parts that must be tested`. */
function startsWithOrder(sentence: string): boolean {
  const [first = ''] = /^\p{L}+/u.exec(sentence) ?? [];
  if (/^(?:do|make|ensure|verify|check|note|see|remember|be)$/i.test(first)) return true;
  const sort = sortsOf(sentence).get(0);
  return (
    sort?.root === first.toLowerCase() && !sort.noun && !/^(?:when|if|after|before|until|unless|while)$/i.test(first)
  );
}
