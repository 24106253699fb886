/** How often the writing rules are right: of what they find, and of what a reader finds. */
import { expect, test } from 'vitest';
import { findingsOf } from '../../support/check.ts';
import { labelled, type Rule } from './labelled-sentences.ts';

const rules: readonly Rule[] = ['long-sentence', 'several-actions', 'vague', 'condition-last'];

function foundIn(sentence: string): ReadonlySet<string> {
  const card = `card c "C" {\n  number "1" revision "A" crew f "Fitter"\n  step "${sentence}"\n}`;
  return new Set(findingsOf(card, { only: ['prose'] }).map(({ code }) => code.replace('prose.', '')));
}

const judged = labelled.map(([sentence, ...breaks]) => ({ sentence, breaks, found: foundIn(sentence) }));

/** Each rule's right, false and missed findings over all sentences. */
function count(rule: Rule) {
  const said = (wanted: boolean, got: boolean) =>
    judged
      .filter(({ breaks, found }) => breaks.includes(rule) === wanted && found.has(rule) === got)
      .map(({ sentence }) => sentence);
  return { rule, right: said(true, true).length, wrong: said(false, true), missed: said(true, false) };
}

const counts = rules.map(count);
const sum = (of: (one: (typeof counts)[number]) => number) => counts.reduce((total, one) => total + of(one), 0);
const right = sum((one) => one.right);
const precision = right / (right + sum((one) => one.wrong.length));
const recall = right / (right + sum((one) => one.missed.length));

test(`over ${labelled.length} sentences precision is at least 0.95, and recall 0.9`, () => {
  console.table(
    counts.map(({ rule, right: of, wrong, missed }) => ({
      rule,
      right: of,
      wrong: wrong.length,
      missed: missed.length,
    })),
  );
  console.log(`precision ${precision.toFixed(3)}, recall ${recall.toFixed(3)}`);
  for (const { rule, wrong, missed } of counts) {
    for (const sentence of wrong) console.log(`wrong  ${rule}: ${sentence}`);
    for (const sentence of missed) console.log(`missed ${rule}: ${sentence}`);
  }
  expect(precision).toBeGreaterThanOrEqual(0.95);
  expect(recall).toBeGreaterThanOrEqual(0.9);
});
