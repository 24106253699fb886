import { capital, lowered } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { inSentences, noInstruction, type Seen, seenAt } from './support/prose.ts';
import { withoutCondition } from './support/sentences.ts';
import { DOE, STE } from './support/sources.ts';

/** A condition after what is to be done. */
const condition = /(?<!\b(?:even|as|what|not) )\b(?:if|when|unless)\b [^,;:]+?(?=[.!]?$)/i;
/** What is asked, told or written down may be what happens when something is so: that is no condition of the work. */
const asks =
  /\b(?:advise|alert|announce|ask|assure|check|compare|confirm|decide|determine|ensure|establish|feel|find out|identify|inform|insure|know|listen|look|make sure|measure|monitor|note|notify|observe|read|record|remember|report|say|see|show|signal|tell|verify|warn|watch|write|what to do)\b/i;
/** What is so when something else is so may stand in what is done: `so that it trips when the pressure falls`. */
const inClause = /\b(?:because|how|so|such|that|until|what|where|whether|which|who|whose)\b/i;

export const proseConditionLast: FindingSort = {
  code: 'prose.condition-last',
  level: 'hint',
  reads: ['words'],
  title: 'What is to be done stands before its condition',
  help: {
    what: 'A sentence of a step says what to do, and after it when or if that is to be done.',
    why: 'Who reads a card with one hand on the machine has done it before the condition is read.',
    whatToDo:
      'Begin with the condition: “If the lamp lights, call the office.” Or say it as an “if” or a “check”, which the proof understands.',
  },
  sources: [STE('5.4: a condition leads, and a comma follows'), DOE('section 4: the condition before the action')],
  examples: [
    {
      bad: `card start "Start" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Call the office if the lamp lights."
  //                    ^^^^^^^^^^^^^^^^^^ prose.condition-last
}`,
      good: `card start "Start" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "If the lamp lights, call the office."
}`,
    },
  ],
  inTexts: inSentences({
    only: 'step',
    see: () => lateIn,
    tell: ({ from, words }, { sentence, place }) => {
      const order = sentence.text.slice(0, from).trim();
      const inOneString = sentence.end - sentence.start === sentence.text.length;
      const edit = replace({ ...place, start: sentence.start }, turned(order, words));
      return {
        message: 'This is read after what is to be done. Begin the sentence with it.',
        fixes: inOneString && !order.includes(',') ? [{ title: 'Put the condition first', edits: [edit] }] : [],
      };
    },
  }),
};

function lateIn(sentence: string): Seen[] {
  const leads = withoutCondition(sentence).from > 0 || /^(?:if|when|unless)\b/i.test(sentence);
  const late = condition.exec(sentence);
  if (leads || !late || noInstruction.test(sentence)) return [];
  const order = sentence.slice(0, late.index).trim();
  return asks.test(order) || inClause.test(order) ? [] : seenAt(late);
}

function turned(order: string, late: string): string {
  return `${capital(late)}, ${lowered(order)}`;
}
