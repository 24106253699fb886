/** Passes of a torque rise, whatever units they are in. */
import { expect, test } from 'vitest';
import { findingsOf } from '../../support/check.ts';

test.each([
  ['10, 18, 25 N.m', 0],
  ['25 N.m', 0],
  ['10, 25, 18 N.m', 1],
  ['10, 10, 25 N.m', 1],
  ['10, 25, 25 N.m', 0],
  ['10 N.m, 100 lbf.in, 25 N.m', 0],
  ['10 N.m, 10 lbf.ft, 100 lbf.in', 1],
])('passes of %s: %i', (values, count) => {
  const card = (action: string) => `card c "C" { number "1" revision "A" crew f "F"
for each pass in ${values} { step ${action} } }`;
  const only = { only: ['torque'] };
  expect(findingsOf(card('tighten "the bolts" to pass'), only)).toHaveLength(count);
  expect(findingsOf(card('"Turn the bolts to {pass}."'), only)).toEqual([]);
});

const card = (body: string) => `card c "C" { number "1" revision "A" crew f "F" tools "Wrench" calibrated
${body} }`;
const codes = (text: string) => findingsOf(text, { only: ['torque', 'name'] }).map(({ code }) => code);

test.each([
  ['falls from step to step', 'step tighten "the bolts" to 25 N.m step tighten "the bolts" to 20 N.m', 1],
  ['falls in one step', 'step { tighten "the bolts" to 25 N.m tighten "the bolts" to 200 lbf.in }', 1],
  [
    'falls behind its passes',
    'for each p in 10, 25 N.m { step tighten "the nuts" to p } step tighten "the nuts" to 20 N.m',
    1,
  ],
  ['is made once more', 'step tighten "the bolts" to 25 N.m step tighten "the bolts" to 25 N.m', 0],
  ['is of another thing', 'step tighten "the bolts" to 25 N.m step tighten "the nuts" to 20 N.m', 0],
  [
    'comes after words that may loosen it',
    'step tighten "the nut" to 25 N.m step "Loosen the nut." step tighten "the nut" to 20 N.m',
    0,
  ],
])('a pass that %s: %i', (_, body, count) => {
  expect(codes(card(body))).toEqual(Array(count).fill('torque.passes'));
});

test.each([
  [
    'no machine has both of',
    'step only kk a1 tighten "the bolts" to 25 N.m step only kk b1 tighten "the bolts" to 18 N.m',
    [],
  ],
  [
    'some machines have alone',
    'step tighten "the bolts" to 25 N.m step only kk a1 "Loosen them." step only kk a1, b1 tighten "the bolts" to 18 N.m',
    [' This is so for kk b1.'],
  ],
  [
    'one machine has in a row',
    'step only kk a1 tighten "the bolts" to 25 N.m step only kk b1 "Look." step tighten "the bolts" to 18 N.m',
    [' This is so for kk a1.'],
  ],
  [
    'some have in passes',
    'for each p in 25, 10 N.m { step only kk b1 tighten "the bolts" to p }',
    [' This is so for kk b1.'],
  ],
])('passes that %s: %j', (_, body, machines) => {
  const found = findingsOf(`variant kk a1, b1, c1\n${card(body)}`, { only: ['torque'] });
  expect(found.map(({ message }) => message.split('is wanted.')[1])).toEqual(machines);
});

test('std:hand-tools asks for a tolerance and for a calibrated tool, of a card that is done too', () => {
  const use = (text: string) => `use "std:hand-tools"\n${text}`;
  const exact = 'step tighten "the bolts" to 25 N.m';
  expect(codes(card(exact))).toEqual([]);
  expect(codes(use(card(exact)))).toEqual(['torque.tolerance']);
  expect(codes(use(card('step tighten "the bolts" to at least 25 N.m')))).toEqual([]);
  const bare = 'card d "D" { number "2" revision "A" crew f "F" tools "Torque wrench" step "Look." do c }';
  expect(codes(use(`${card(`${exact} +/- 1 N.m`)} ${bare}`))).toEqual([]);
  const unlisted = card(`${exact} +/- 1 N.m`).replace('calibrated', '');
  expect(codes(use(unlisted))).toEqual(['torque.tool']);
});

test.each([
  ['two rows for one position', '"Gap" in mm at "left", "right", "left"', 1],
  ['two columns for one value', '"Gap" in mm, "Gap" in mm', 1],
  ['a row for each position', '"Gap" in mm, "Wear" in mm at "left", "right"', 0],
])('a table with %s', (_, table, count) => {
  expect(codes(card(`step record ${table}`))).toEqual(Array(count).fill('name.duplicate'));
});
