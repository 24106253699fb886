import { matchesOf } from '../../shared/text.ts';
import { findUnit } from '../../shared/units.ts';
import { mayBeVerb, sortsOf } from '../prose/english.ts';
import type { FindingSort } from './finding.ts';
import { inSentences } from './support/prose.ts';
import { anyOf, withoutCondition } from './support/sentences.ts';
import { STE } from './support/sources.ts';

const most = 3;

export const proseNounCluster: FindingSort = {
  code: 'prose.noun-cluster',
  level: 'hint',
  reads: ['words'],
  title: 'Too many nouns stand in a row',
  help: {
    what: 'More than three nouns follow one another. A group with hyphens, words in capitals (a plate on the machine) and a name of the setting approvedWords count as one.',
    why: 'Which word belongs to which is left to the reader: “gear motor reduction box” is a box, a motor or a reduction.',
    whatToDo: 'Say with “of”, “on” or “for” what belongs to what, or join what is one thing by a hyphen.',
  },
  sources: [STE('2.1: at most three nouns in a cluster', 'from memory')],
  examples: [
    {
      bad: `card hinge "Hinge" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Inspect the landing gear door hinge."
  //                ^^^^^^^^^^^^^^^^^^^^^^^ prose.noun-cluster
}`,
      good: `card hinge "Hinge" {
  number "1" revision "A" crew mechanic "Mechanic"
  step "Inspect the hinge on the door of the landing gear."
}`,
    },
  ],
  inTexts: inSentences({
    see: ({ actionVerbs, approvedWords }) => {
      const verbs = new Set(['check', ...actionVerbs]);
      const names = anyOf(approvedWords.filter((word) => /\s/u.test(word)));
      return (sentence) =>
        [...clustersIn(asOneWord(sentence, names), verbs)].map(({ from, to }) => ({
          from,
          words: sentence.slice(from, to),
        }));
    },
    tell: ({ words }) => ({
      message: `“${words}” is a row of more than ${most} nouns. Say with “of”, “on” or “for” what belongs to what.`,
    }),
  }),
};

/** Names of several words with hyphens, so that the place of each word stays what it is. */
function asOneWord(sentence: string, names: RegExp | undefined): string {
  const joined = (words: string) => words.replaceAll(/\s/gu, '-');
  const plates = sentence.replaceAll(/(?<![\p{L}\p{N}])\p{Lu}{2,}(?: \p{Lu}{2,})+(?![\p{L}\p{N}])/gu, joined);
  return names ? plates.replaceAll(names, joined) : plates;
}

/** Four words without one that no name has: only then is it worth finding out what sort each word is. */
const mayBeRow =
  /(?:(?<![\p{L}\p{N}/'’-])(?!(?:the|an?|and|or|of|in|on|at|to|for|from|with|by|into|is|are|be|it|that|not|until|than|all)\s)\p{L}[\p{L}\p{N}/'’-]*(?:\s|(?=[^\p{L}\p{N}\s'’/-]|$))){4}/iu;

/** Of more words in a row than there may be, each with nothing but a space between. */
function* clustersIn(
  sentence: string,
  verbs: ReadonlySet<string>,
): Iterable<{ readonly from: number; readonly to: number }> {
  const words = matchesOf(/\{[^{}]*\}|\([^()]*\)|[\p{L}\p{N}]+(?:[-'’/][\p{L}\p{N}]+)*/gu, sentence);
  if (!mayBeRow.test(sentence)) return;
  const sorts = sortsOf(sentence);
  const order = withoutCondition(sentence).from;
  let row: RegExpExecArray[] = [];
  for (const [at, word] of [...words, undefined].entries()) {
    const goesOn = word && row.length > 0 && sentence.slice(endOf(row.at(-1)), word.index) === ' ';
    const names =
      word &&
      sorts.get(word.index)?.names &&
      !whither.test(word[0]) &&
      !isFigure(word, words[at - 1]) &&
      !isOrder(word, sentence, order, verbs);
    if (names && (goesOn || row.length === 0)) {
      // `When removing oil filter`: the verb of a condition is no part of a name.
      if (
        row.length > 0 ||
        (!where.test(word[0]) && (!sorts.get(word.index)?.going || isInName(sentence.slice(0, word.index), order)))
      )
        row.push(word);
      continue;
    }
    const found = row.slice(0, isDone(row, sentence) ? -1 : undefined);
    if (found.length > most && !sorts.get(found.at(-1)?.index ?? 0)?.going)
      yield { from: found[0]?.index ?? 0, to: endOf(found.at(-1)) };
    row = names && !where.test(word[0]) ? [word] : [];
  }
}

/** Says where on a thing another one is, and is no noun before one. */
const where = /^(?:front|rear|left|right|top|bottom|main|spare)$/i;

/** Says which way or how something is turned or put, whatever it is taken for. */
const whither =
  /(?:wise|wards?)$|^(?:aft|apart|downhill|flush|inboard|outboard|overhead|sideways|snug|together|uphill|upright)$|tight$/i;

/** `FB-2`, and the unit of a number. */
function isFigure({ 0: word }: RegExpExecArray, before: RegExpExecArray | undefined): boolean {
  return /\d/u.test(word) || (before !== undefined && /\d/u.test(before[0]) && findUnit(word) !== undefined);
}

/** Begins what is so, whose verb may be taken for a noun: `when the oil pressure drops`. */
const clause = /\b(?:after|as|assure|before|check|ensure|if|once|sure|that|unless|until|verify|when|while)\b[^,;:]*$/i;
const auxiliary = /^\s(?:is|are|was|were|has|have|had|must|shall|should|will|can|may|does|do)\b/i;

/** The last word of a row is what it does, or `set` and `cut` of what is done to it. */
function isDone(row: readonly RegExpExecArray[], sentence: string): boolean {
  const [first, last] = [row[0], row.at(-1)];
  if (!first || !last) return false;
  const after = sentence.slice(endOf(last));
  if (/^(?:cut|open|set|shut)$/i.test(last[0])) return /^\s(?:at|by|for|in|on|to|with)\b/i.test(after);
  return (
    /[^s]s$/i.test(last[0]) &&
    clause.test(sentence.slice(0, first.index)) &&
    !auxiliary.test(after) &&
    mayBeVerb(last[0], 'It')
  );
}

/** A sentence without one of these is an order, whatever its first word is taken for: `Place shift lever in neutral`. */
const tells = /\b(?:is|are|was|were|has|have|had|must|shall|should|will|can|may|does|do)\b/i;

/** The verb of an order may be taken for a noun: `Torque the nut`, `and check nut torque`, `Note pump pressure is low`. */
function isOrder({ 0: word, index }: RegExpExecArray, sentence: string, order: number, verbs: ReadonlySet<string>) {
  const first = index === order;
  if (first && !tells.test(sentence)) return true;
  const leads = first || /(?:\b(?:and|or|then)|[,;:])\s+$/i.test(sentence.slice(0, index));
  return (
    leads &&
    (verbs.has(word.toLowerCase()) || sortsOf(sentence).get(index)?.root !== undefined || mayBeVerb(word, 'They'))
  );
}

const endOf = (word: RegExpExecArray | undefined): number => (word ? word.index + word[0].length : 0);

/** After an article, or straight after the verb of an order. */
function isInName(before: string, order: number): boolean {
  return /\b(?:the|an?|each|every|all|both|new|old)\s+$/i.test(before) || /^\p{L}+\s+$/u.test(before.slice(order));
}
