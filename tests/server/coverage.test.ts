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
  expect(card && coverageOf(card)).toEqual({ steps: 7, followedSteps: 5, items: 3, followedItems: 2 });
  expect(card && coverageWords([coverageOf(card), coverageOf(card)])).toBe('the proof follows 10 of 14 steps');
});
