import { expect, test } from 'vitest';
import { coverageOf, coverageWords } from '../../server/api.ts';
import { openFiles } from '../support/check.ts';

const text = `item drain : valve "the drain" normally closed
item lamp-1 : lamp "the lamp"
item cap-1 : cap "the cap" normally fitted
gauge oil in bar
procedure look (v : valve) { step check v closed }
card a "A" {
  crew f "Fitter"
  step "Agree on the hand signals."
  step "Open it." { set drain open }
  step check "Is it dry?"
  step check lamp-1 on else finish
  step { record "Serial number" sign f }
  step read oil
  step set drain closed
  do look(drain)
  do look(drain)
}
`;

test('coverage counts the steps that the proof sees, a step of a procedure once, and the items that it follows', () => {
  const [card] = openFiles({ 'a.card': text }).workspace.snapshot('a.card')?.bound.cards ?? [];
  expect(card && coverageOf(card)).toMatchObject({ steps: 7, followedSteps: 6, items: 3, followedItems: 2 });
  expect(card && coverageWords([coverageOf(card), coverageOf(card)])).toBe(
    'the proof follows 12 of 14 steps; 2 are for people only',
  );
});

test('a step that is not followed says why, and whether it is for people only', () => {
  const { workspace } = openFiles({
    'a.card': `item drain : valve "the drain" normally closed
gauge oil "oil pressure" in bar
card a "A" {
  crew f "Fitter"
  step "Agree on the hand signals."
  step set drain open
  step "Look for leaks at the drain."
  step "Close the drain. Read the oil pressure."
  step "Open the drain a little." { accept prose.unsaid-action because "It is only shown." }
  step tighten "the cap" to 20 N.m
}
`,
  });
  const [card] = workspace.snapshot('a.card')?.bound.cards ?? [];
  expect(card && coverageOf(card).notFollowed.map(({ number, sort, why }) => `${number} ${sort}: ${why}`)).toEqual([
    '1 people: words for whoever does the work: no item is to be made up for them',
    '3 people: words that name the drain and no state of it: no item is to be made up for them',
    '4 unseen: only words, which the proof does not see: say it as set drain closed; read oil',
    '5 people: only words, and accepted as such: nothing more is asked for',
    '6 people: a torque changes no state: nothing more is asked for',
  ]);
});
