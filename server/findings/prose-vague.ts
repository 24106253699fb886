import type { Gauge } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { FindingSort } from './finding.ts';
import { replace } from './support/edits.ts';
import { allSeen, inSentences } from './support/prose.ts';
import { anyOf } from './support/sentences.ts';
import { DOE } from './support/sources.ts';

export const proseVague: FindingSort = {
  code: 'prose.vague',
  level: 'hint',
  reads: ['words'],
  title: 'A word leaves open how much, how long or when',
  help: {
    what: 'A step or an admonition uses a word of the setting vagueWords, such as “sufficient” or “as required”.',
    why: 'Two people will do two different things, and both have followed the card.',
    whatToDo:
      'Say the quantity, the time or the condition: a limit of a gauge, a duration, an if. A quick fix takes a word out that says nothing more, and writes the limit of a gauge that is named; any other figure is the writer’s to find.',
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
      given: `gauge pressure "water pressure" in bar { limit spray 2 bar to 4 bar }`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Keep a sufficient water pressure."
  //           ^^^^^^^^^^ prose.vague
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Keep a water pressure of {pressure.spray}."
}`,
    },
    {
      bad: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Wait approximately 5 minutes."
  //         ^^^^^^^^^^^^^ prose.vague
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Wait 5 minutes."
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
  inTexts: inSentences({
    see:
      ({ vagueWords }) =>
      (sentence) =>
        tellsWhy.test(sentence) ? [] : allSeen(anyOf(vagueWords), sentence),
    tell: ({ from, words }, { sentence, place }, { parsed, bound }) => {
      const after = sentence.text.slice(from + words.length);
      if (saysByWhat.test(after)) return undefined;
      return {
        message: `“${words}” leaves open what is to be done. Say how much, how long, or when.`,
        fixes: saysNothingMore(words, after)
          ? [withoutWord(words, place, parsed.text)]
          : bound.equipment.gauges.flatMap((gauge) => withLimit(gauge, place, after)),
      };
    },
  }),
};

/** `This will make proper assembly easier.` */
const tellsWhy = /^(?:this|it|they)\s+(?:will|can|may|helps?|makes?|allows?)\b/i;
/** `as required by table 2`, `suitable for oxygen`, `sufficient to lift 50 kg`: that tells by what it is judged. */
const saysByWhat = /^\s+(?:(?:by|in|per|under)\s|(?:for|to)\s[^,;]*\d|for\s+use\b)/i;

/**
 * Without it the order is the same, and leaves nothing to the reader. Any other word stands for a quantity or a condition that only
 * the writer knows: a figure that is made up would be printed as if somebody had set it, and without the word nobody would ask for one.
 */
function saysNothingMore(word: string, after: string): boolean {
  if (/^approximately$/i.test(word))
    return /^\s+(?:\d|(?:two|three|four|five|six|seven|eight|nine|ten)\b)/i.test(after);
  return /^(?:adequate|appropriate|proper|correct)ly$/i.test(word);
}

/** With the blank or comma before it. */
function withoutWord(word: string, place: Place, text: string): Fix {
  const before = /(?:,?[ ]+)?$/u.exec(text.slice(0, place.start))?.[0].length ?? 0;
  return { title: `Take “${word}” out`, edits: [replace({ ...place, start: place.start - before }, '')] };
}

/** `sufficient oil pressure`: what is sufficient stands at the gauge. */
function withLimit({ name, label, limits }: Gauge, { file, start, end }: Place, after: string): Fix[] {
  const words = label.replace(/^(?:the|an?)\s+/i, '');
  const [said = ''] = anyOf([words], '^\\s+', 'iu')?.exec(after) ?? [];
  if (said === '') return [];
  return limits.map((limit) => {
    const written = `${said.trimStart()} of {${name}.${limit.name}}`;
    return { title: `Write the limit: ${written}`, edits: [replace({ file, start, end: end + said.length }, written)] };
  });
}
