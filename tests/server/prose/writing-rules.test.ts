/** How often the writing rules are right: of what they find, and of what a reader finds. `npm run writing` prints it. */
import { describe, expect, test } from 'vitest';
import { allRulebooks } from '../../../server/rulebooks/rulebooks.ts';
import { findingsOf } from '../../support/check.ts';
import { firstRun, secondRun } from './first-run-sentences.ts';
import { labelled, type Rule } from './labelled-sentences.ts';
import { manuals } from './public-sentences.ts';
import { unseen } from './unseen-sentences.ts';

const rules: readonly Rule[] = [
  'long-sentence',
  'several-actions',
  'vague',
  'condition-last',
  'imperative',
  'course',
  'noun-cluster',
  'word',
];

const uses = allRulebooks.map(({ name }) => `use "${name}"\n`).join('');

/** By any rule of any rulebook that is shipped. */
function foundIn(sentence: string): ReadonlySet<string> {
  const head = 'number "1" revision "A" on 2026-03-02 crew f "Fitter" references "Manual"';
  const card = `${uses}card c "C" {\n  ${head}\n  step "${sentence}"\n}`;
  return new Set(findingsOf(card).map(({ code, rule }) => (rule ?? code).replace('prose.', '')));
}

/** `npm run writing` shows each sentence; a run of all tests shows the sums. */
const showsEach = process.env.npm_lifecycle_event === 'writing';

const ofManuals = manuals.flatMap(({ sentences }) => sentences);

test('there are three hundred sentences of public manuals, each once', () => {
  expect(new Set(ofManuals.map(([sentence]) => sentence)).size).toBe(ofManuals.length);
  expect(ofManuals.length).toBeGreaterThanOrEqual(300);
});

describe.each([
  { of: 'our own', sentences: labelled, recallAtLeast: 0.9 },
  { of: 'public manuals', sentences: ofManuals, recallAtLeast: 0.75 },
  { of: 'procedures from memory', sentences: unseen, recallAtLeast: 0.75 },
  { of: 'procedures of other trades, from memory', sentences: firstRun, recallAtLeast: 0.75 },
  { of: 'still other trades, from memory', sentences: secondRun, recallAtLeast: 0.75 },
])('sentences of $of', ({ of, sentences, recallAtLeast }) => {
  const judged = sentences.map(([sentence, ...breaks]) => ({ sentence, breaks, found: foundIn(sentence) }));

  /** A rule's right, false and missed findings over all sentences. */
  function count(rule: Rule) {
    const said = (wanted: boolean, got: boolean) =>
      judged
        .filter(({ breaks, found }) => breaks.includes(rule) === wanted && found.has(rule) === got)
        .map(({ sentence }) => sentence);
    return { rule, right: said(true, true), wrong: said(false, true), missed: said(true, false) };
  }

  const counts = rules.map(count);

  test('none breaks a rule of another rulebook', () => {
    const others = judged.flatMap(({ sentence, found }) =>
      [...found].filter((one) => !(rules as readonly string[]).includes(one)).map((one) => `${one}: ${sentence}`),
    );
    expect(others).toEqual([]);
  });

  test('how many rules each sentence breaks, and which of them wrongly', () => {
    const most = Math.max(...judged.map(({ found }) => found.size));
    for (let size = 0; size <= most; size++)
      console.log(`${judged.filter(({ found }) => found.size === size).length} sentences break ${size} rules`);
    if (showsEach)
      for (const { sentence, breaks, found } of judged.filter(({ found }) => found.size > 0)) {
        const told = [...found].map((one) => ((breaks as readonly string[]).includes(one) ? one : `${one} (wrong)`));
        console.log(`${found.size}: ${sentence} [${told.join(', ')}]`);
      }
    expect(judged.reduce((sum, { found }) => sum + found.size, 0)).toBeGreaterThan(0);
  });

  test(`precision is at least 0.95, and recall ${recallAtLeast}`, () => {
    const sum = (column: 'right' | 'wrong' | 'missed') => counts.reduce((total, one) => total + one[column].length, 0);
    const share = (part: number, other: number) => (part + other === 0 ? 1 : part / (part + other));
    const precision = share(sum('right'), sum('wrong'));
    const recall = share(sum('right'), sum('missed'));
    console.table(
      counts.map(({ rule, right, wrong, missed }) => ({
        rule,
        right: right.length,
        wrong: wrong.length,
        missed: missed.length,
        precision: share(right.length, wrong.length).toFixed(3),
        recall: share(right.length, missed.length).toFixed(3),
      })),
    );
    console.log(
      `${sentences.length} sentences of ${of}: precision ${precision.toFixed(3)}, recall ${recall.toFixed(3)}`,
    );
    for (const { rule, wrong, missed } of counts) {
      for (const sentence of wrong) console.log(`wrong  ${rule}: ${sentence}`);
      for (const sentence of missed) console.log(`missed ${rule}: ${sentence}`);
    }
    expect(precision).toBeGreaterThanOrEqual(0.95);
    expect(recall).toBeGreaterThanOrEqual(recallAtLeast);
  });
});
