/** Passes of a torque rise, whatever units they are in. */
import { expect, test } from 'vitest';
import { findingsOf } from '../../support/check.ts';

test.each([
  ['10, 18, 25 N.m', 0],
  ['25 N.m', 0],
  ['10, 25, 18 N.m', 1],
  ['10, 10, 25 N.m', 1],
  ['10 N.m, 100 lbf.in, 25 N.m', 0],
  ['10 N.m, 10 lbf.ft, 100 lbf.in', 1],
])('passes of %s: %i', (values, count) => {
  const card = (action: string) => `card c "C" { number "1" revision "A" crew f "F"
for each pass in ${values} { step ${action} } }`;
  const only = { only: ['torque'] };
  expect(findingsOf(card('tighten "the bolts" to pass'), only)).toHaveLength(count);
  expect(findingsOf(card('"Turn the bolts to {pass}."'), only)).toEqual([]);
});
