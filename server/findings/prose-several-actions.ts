import type { Step, Text } from '../../grammar/syntax.ts';
import type { Fix } from '../../shared/finding.ts';
import { capital, matchesOf, type Place } from '../../shared/text.ts';
import { sortsOf } from '../prose/english.ts';
import type { FindingSort } from './finding.ts';
import { insertAfter, replace } from './support/edits.ts';
import { inSentences, noInstruction, type Seen, seenAt } from './support/prose.ts';
import { anyOf, isOrderAt, withoutCondition } from './support/sentences.ts';
import { DOE, STE } from './support/sources.ts';
import { headOf } from './support/text-as-steps.ts';

/** Orders that change nothing, and are ticked all the same. */
const looks = ['check', 'monitor', 'verify'];
/** `to loosen and remove the dirt`, `until it stops and closes the valve`: what the order is for, or when, or what its thing does. */
const inClause =
  /\b(?:to|can|may|must|will|you|they)\s+(?:\p{L}+ly\s+)?\p{L}+\s+$|\b(?:after|as|before|if|so|that|unless|until|when|which|while|who)\b[^,;]*$/iu;
/** What is told is not to be done, however many. */
const forbids = /^(?:do not|never)\b/i;
/** Words that say that two things are meant to happen at once, which one sentence may then say. */
const atOnce = /\b(?:while|at the same time|simultaneously|together)\b/i;

export const proseSeveralActions: FindingSort = {
  code: 'prose.several-actions',
  level: 'hint',
  reads: ['words'],
  title: 'A sentence asks for several actions',
  help: {
    what: 'A sentence of a step asks for a second action (“… and install …”). The verbs are those of the setting actionVerbs, and any other with what it is done to.',
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
  inTexts: inSentences({
    only: 'step',
    see: ({ actionVerbs }) => {
      const operates = anyOf([...actionVerbs, ...looks], String.raw`(?:\band(?: then)?|\bthen|;|,)\s+`);
      return (sentence) => secondIn(sentence, operates);
    },
    tell: (_, { sentence, by, text, place }, { parsed }) => ({
      message: 'This sentence asks for more than one action. Write a step for each, or say “at the same time”.',
      fixes:
        by.type === 'step' && withoutCondition(sentence.text).from === 0
          ? inTwoSteps(by, text, place, parsed.text)
          : [],
    }),
  }),
};

function secondIn(sentence: string, operates: RegExp | undefined): Seen[] {
  const { text, from } = withoutCondition(sentence);
  if (noInstruction.test(text) || forbids.test(text) || atOnce.test(sentence)) return [];
  return seenAt(secondOrder(text, operates), from);
}

/**
 * Any word that may be done to what follows it, but not in `press and hold it`, and none by which something only stays: what sort of
 * word it is, is looked up.
 */
const anyOrder =
  /(?<!^\p{L}+ )(?:\band(?: then)?|\bthen|;)\s+(?!(?:allow|avoid|hold|keep|leave|let|make)\b)\p{Ll}+(?=\s+(?:the|an?|it|them|its|their|your|each|every|all|any|both|for)\s|\s+(?:it|them)\b)/gu;

/** The first that operates equipment, or that is done to something. */
function secondOrder(text: string, operates: RegExp | undefined): RegExpExecArray | undefined {
  const known = (operates ? matchesOf(operates, text) : []).filter((found) => isOrderAt(found, text));
  const others = matchesOf(anyOrder, text).filter((found) => {
    const word = /\p{L}+$/u.exec(found[0])?.[0] ?? '';
    return sortsOf(text).get(found.index + found[0].length - word.length)?.root === word;
  });
  return [...known, ...others]
    .filter(({ index }) => !inClause.test(text.slice(0, index)))
    .sort((a, b) => a.index - b.index)[0];
}

/** The second action and what is said after it in a step of its own, by the same roles; where the step says nothing else. */
function inTwoSteps(step: Step, text: Text, second: Place, source: string): Fix[] {
  const bare = step.parts.every(({ type }) => type === 'by' || type === 'text') && step.actions.length === 0;
  if (!bare || step.parts.at(-1) !== text || text.strings.length > 1) return [];
  const link = /^(?:,?\s*(?:and(?: then)?|then)|;|,)\s+/i.exec(source.slice(second.start, second.end))?.[0] ?? '';
  const rest = source.slice(second.start + link.length, text.end - 1);
  const first = source.slice(0, second.start).trimEnd().replace(/[,;]$/u, '');
  const end = { file: second.file, start: first.length, end: text.end };
  const next = insertAfter({ ...end, start: step.start }, `${headOf(step)} "${capital(rest)}"`, () => source);
  return [{ title: 'Make two steps of it', edits: [replace(end, '."'), next] }];
}
