import type { Settings } from '../../shared/settings.ts';
import type { FindingSort } from './finding.ts';
import { inSentences, noInstruction, type Seen } from './support/prose.ts';
import { anyOf, isOrderAt, withoutCondition } from './support/sentences.ts';
import { DOE } from './support/sources.ts';

const time = String.raw`\d[\d.,]*\s?(?:s|sec|seconds?|min|minutes?|h|hours?)\b`;
const everySoOften = new RegExp(String.raw`\bevery\s+${time}`, 'i');
const inTime = new RegExp(String.raw`\bwithin\s+${time}`, 'i');
/** What is looked at, not done. */
const clause = /\b(?:that|if|whether)\b/i;
/** With one of these it is said how often, until when, or for what. */
const bounded = /\b(?:until|once|twice|times?|for|on|with|at)\b/i;

export const proseCourse: FindingSort = {
  code: 'prose.course',
  level: 'hint',
  reads: ['words'],
  title: 'A choice, a repeat or a time limit in words leaves something open',
  help: {
    what: 'A sentence of a step offers one action “or” another, repeats something without saying when to end, gives a time in which something must be done without writing down when it began, or has “and” and “or” in one condition.',
    why: 'A choice in a sentence has no box for each way, a repeat without an end is ended by whoever is tired of it, and nobody knows afterwards whether five minutes were kept. Of “and” beside “or” each reader makes something else.',
    whatToDo:
      'Say it as a statement: “choose” has a box for each way, “repeat … until” an end, “wait”, “within” and “record "Start time"” a time. Or write in the sentence what is open.',
  },
  sources: [
    { title: 'DOE-STD-1029-92, page 61: equally acceptable alternatives, time-dependent steps', status: 'seen' },
    { title: 'DOE-STD-1029-92, page 64: repeated steps', status: 'seen' },
    DOE('section 4: AND and OR not in one condition'),
  ],
  examples: [
    {
      bad: `card vent "Vent" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Open the vent or lift the lid."
  //                  ^^^^^^^ prose.course
  step "Wipe the rim. Repeat this."
  //                  ^^^^^^ prose.course
}`,
      good: `card vent "Vent" {
  number "1" revision "A" crew mechanic "Mechanic"
  choose {
    "The vent opens." { step "Open the vent." }
    or "It is stuck." { step "Lift the lid." }
  }
  step "Wipe the rim. Repeat this until the cloth stays clean."
}`,
    },
  ],
  inTexts: inSentences({
    only: 'step',
    see: (settings) => (sentence) => (noInstruction.test(sentence) ? [] : openIn(sentence, settings)),
    tell: ({ message, unlessWritten }, { by }) => {
      const isWritten = by.type === 'step' && by.actions.some(({ type }) => type === 'record');
      return unlessWritten && isWritten ? undefined : { message };
    },
  }),
};

interface Open extends Seen {
  readonly message: string;
  /** Nothing is open where the step writes something down. */
  readonly unlessWritten?: true;
}

function* openIn(text: string, { actionVerbs }: Settings): Iterable<Open> {
  const { text: main, from } = withoutCondition(text);
  const other = otherWay(main, actionVerbs);
  if (other)
    yield {
      from: from + other.index,
      words: other[0],
      message: 'Which of the two was done shows nowhere. Write “choose” with a way for each.',
    };
  const again = /\brepeat\b/i.exec(main);
  if (again && !bounded.test(main.slice(again.index)))
    yield {
      from: from + again.index,
      words: again[0],
      message: 'When does this end? Write “until” what is so, or how many times; or write “repeat … until”.',
    };
  const rhythm = everySoOften.exec(text);
  if (rhythm && !/\b(?:until|times|for|while|during|as long as)\b/i.test(text))
    yield {
      from: rhythm.index,
      words: rhythm[0],
      message: 'When does this end? Write “until” what is so, or how many times.',
    };
  const limit = inTime.exec(text);
  if (limit && !clause.test(text.slice(0, limit.index)))
    yield {
      from: limit.index,
      words: limit[0],
      message:
        'From when does this count? Let the step write it down (“record "Start time"”), or say it as a statement with “within”.',
      unlessWritten: true,
    };
  const condition = /^(?:if|when)\b[^,]*/i.exec(text)?.[0] ?? '';
  if (/\band\b/i.test(condition) && /\bor\b/i.test(condition))
    yield {
      from: 0,
      words: condition,
      message: '“And” and “or” in one condition are read in two ways. Make two sentences of it.',
    };
}

/** “Do not open or close it” forbids both; “raise or lower the boom” is one action in two directions. */
function otherWay(main: string, verbs: readonly string[]): RegExpExecArray | undefined {
  if (/\b(?:not|never)\b/i.test(main)) return undefined;
  const either = /\beither\b(?:(?!\b(?:of|for|until|if|side|end)\b)[^,;])*?\bor\s+\S+/i.exec(main);
  const other = anyOf(verbs, String.raw`\bor\s+`, 'iu')?.exec(main);
  const isOther =
    other &&
    isOrderAt(other, main) &&
    anyOf(verbs, '^', 'iu')?.test(main) &&
    /\s.*\s/u.test(main.slice(0, other.index));
  return either ?? (isOther ? other : undefined);
}
