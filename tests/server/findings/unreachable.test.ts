/** Where it is told that nobody comes to a step: at the first of each row, also behind what a check or a branch cuts off. */
import { expect, test } from 'vitest';
import { check, findingsOf } from '../../support/check.ts';

const valves = `kind valve { closed, open }
item v-1 : valve "valve 1" normally closed
item v-2 : valve "valve 2" normally closed
`;
const told = (text: string) => check(`${valves}${text}`, { only: ['flow'] });

test('behind a check that fails on every path, and again behind the way that it takes', () => {
  told(`card a "A" {
  step check v-1 open else go to away
  //   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ flow.never-passes
  step "Never."
//^^^^^^^^^^^^^ flow.unreachable
  step "Not this either."
  step away: "Look."
  finish
  step "Never again."
//^^^^^^^^^^^^^^^^^^^ flow.unreachable
}`);
});

test('in a branch that is never taken, and in the else of one that always is', () => {
  told(`card a "A" {
  if v-1 open { step "Never." step "Nor this." }
//^^^^^^^^^^^ flow.never-passes
//              ^^^^^^^^^^^^^ flow.unreachable
  if v-1 closed { step "Look." } else { step "Never." }
//^^^^^^^^^^^^^ flow.always-passes
//                                      ^^^^^^^^^^^^^ flow.unreachable
}`);
});

const blow = `procedure blow (v: valve) {
  step set v open
  step "Blow."
  step set v closed
}
`;

test('what another card reaches is told where this one does it', () => {
  told(`${blow}card a "A" { do blow(v-1) }
card c "C" {
  step "Look."
  finish
  do blow(v-1)
//^^^^^^^^^^^^ flow.unreachable
}`);
});

test('of a procedure that is done twice, once out of reach', () => {
  told(`${blow}card c "C" {
  do blow(v-1)
  finish
  do blow(v-2)
//^^^^^^^^^^^^ flow.unreachable
}`);
});

test('what a procedure does not do with what it is given', () => {
  told(`procedure shut (v: valve) {
  if v open { step set v closed }
//^^^^^^^^^ flow.never-passes
  step "Look."
}
card a "A" {
  do shut(v-1)
//^^^^^^^^^^^^ flow.unreachable
}`);
});

test('what stands behind the end of a procedure is told there, however many do it', () => {
  told(`procedure look () {
  step "Look."
  finish
  step "Never."
//^^^^^^^^^^^^^ flow.unreachable
}
card a "A" { do look() }
card c "C" { do look() do look() }`);
});

test('a step for machines that the card is not for', () => {
  told(`variant size 1 to 8
card p "P" {
  applies size 1 to 3
  step only size 3 "Look."
  step only size 4 "Never."
//^^^^^^^^^^^^^^^^^^^^^^^^^ flow.unreachable
}`);
});

test('a step of a procedure is there for machines that this card is not for', () => {
  told(`variant size 1 to 8
procedure look() {
  step only size 4 "Look again."
  step "Look."
}
card p "P" {
  applies size 1 to 3
  do look()
}`);
});

test('a bound with a finding of its own may pass', () => {
  told(`gauge p "pressure" in psi { reads 0 to 100 by 1 }
card a "A" {
  step check p at least 300 psi
  step "Look."
}`);
});

const messages = (text: string, code: string) =>
  findingsOf(`${valves}${text}`, { only: [code] }).map(({ message }) => message);

test('behind the else of a check that never fails it says so, and does not take the way out of danger away', () => {
  const card = (before: string) =>
    `card a "A" { ${before} step check v-1 closed else go to out finish step out: "Tell the guard." }`;
  const [fact] = findingsOf(`${valves}${card('')}`, { only: ['flow.unreachable'] });
  expect(fact?.message).toBe(
    'No path reaches this step: the check that leads here never fails, as the card begins with valve 1 closed and nothing changes that. If it may be otherwise, write “normally closed verify” in the equipment.',
  );
  expect(fact?.fixes).toEqual([]);
  expect(messages(card('step set v-1 open step set v-1 closed'), 'flow.unreachable')).toEqual([
    'No path reaches this step: the check that leads here never fails.',
  ]);
});

test('a loop that a check closes needs something that changes what it asks', () => {
  const [message] = messages(
    'item v : valve card a "A" { step a: "Look." step check v open else go to a }',
    'flow.endless',
  );
  expect(message).toContain('nothing in the loop changes what it asks');
});

test('a check that never passes says how it stands', () => {
  expect(messages('card a "A" { step check v-1 open }', 'flow.never-passes')).toEqual([
    'This check fails on every path: valve 1 is closed. Mend it, or what comes before it.',
  ]);
});
