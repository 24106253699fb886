import { expect, test } from 'vitest';
import { check, findingsOf } from '../../support/check.ts';

const two = 'number "1" revision "A" crew cockpit "Cockpit", ground "Ground"';
const drain = 'kind tap { closed, open }\nitem drain : tap "the drain"\nitem vent : tap "the vent"';

test('a lane says who does the steps in it', () => {
  check(`${drain}
card wash "Wash" {
  ${two}
  together {
    by cockpit { step set drain open }
    by ground { step set vent open }
  }
}`);
});

test('a step of a procedure is done by the roles of the card that does it', () => {
  check(`procedure look() {
  step by ground "Look at the hose."
}
card wash "Wash" {
  ${two}
  step by cockpit "Look at the gauge."
  do look
}`);
});

test('a role that the card has not got is reported at the do', () => {
  check(`procedure look() {
  step by ground "Look at the hose."
}
card wash "Wash" {
  number "1" revision "A" crew mechanic "Mechanic"
  do look
  // ^ crew.unknown
}`);
});

test('the later lane has the finding, and shows the other', () => {
  const [finding] = check(`${drain}
card wash "Wash" {
  ${two}
  together {
    by cockpit { step set drain open }
    by ground { step { set vent open  set drain closed } }
    //                                ^^^^^^^^^^^^^^^^ crew.two-hands
  }
}`);
  expect(finding?.path.map(({ text }) => text)).toEqual(['the other lane drives the drain here']);
});

test.each([
  ['on different machines', 'step only kk a1 set drain open', 'step only kk b1 set drain closed', []],
  ['on one machine', 'step only kk a1 set drain open', 'step set drain closed', [' This is so for kk a1.']],
  ['in a branch that is never taken', 'if vent open { step set drain open }', 'step set drain closed', []],
  ['in one that is always taken', 'if vent closed { step set drain open }', 'step set drain closed', ['']],
  [
    'while another item is otherwise',
    'if plug open { step set drain open }',
    'if plug closed { step set drain closed }',
    [],
  ],
  ['where it is not so', 'if plug open { step set drain open }', 'if plug open {} else { step set drain closed }', []],
  ['while it is alike', 'if plug open { step set drain open }', 'if plug open { step set drain closed }', ['']],
  [
    'while another item need not stay so',
    'if plug open { step set drain open }',
    'step set plug closed if plug closed { step set drain closed }',
    [''],
  ],
])('two lanes that drive one item %s: %s, %s', (_, cockpit, ground, machines) => {
  const found = findingsOf(
    `${drain}
item plug : tap "the plug"
variant kk a1, b1
card wash "Wash" {
  ${two}
  step by cockpit set vent closed
  together {
    by cockpit { ${cockpit} }
    by ground { ${ground} }
  }
}`,
    { only: ['crew.two-hands'] },
  );
  expect(found.map(({ message }) => message.split('before or after.')[1])).toEqual(machines);
});

test('every role is offered where a step names none', () => {
  const [finding] = findingsOf(`card wash "Wash" {
  ${two}
  step by ground "Look at the hose."
  step by cockpit "Look at the lamp."
  step "Look at the gauge."
}`);
  expect(finding?.fixes.map(({ title }) => title)).toEqual(['Let Cockpit do this step', 'Let Ground do this step']);
});

test('a step by a role that nobody knows has that one slip', () => {
  check(
    `card wash "Wash" {
  ${two}
  step by pilot "Look at the lamp by the hose."
  //      ^^^^^ crew.unknown
  step "Look at the lamp by the hose."
//^ crew.missing
}`,
    { only: ['crew'] },
  );
});

test('the role that does a step, or its lane, cannot inspect it', () => {
  check(
    `card wash "Wash" {
  ${two}
  step by cockpit inspected by ground "Fit the pin."
  step by cockpit inspected by cockpit "Fit the pin."
  //              ^^^^^^^^^^^^^^^^^^^^ crew.own-inspection
  step by ground { sign ground independent "Pin fitted" }
  //               ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ crew.own-inspection
  together {
    by cockpit { step inspected by cockpit "Look at the lamp." }
    //                ^^^^^^^^^^^^^^^^^^^^ crew.own-inspection
    by ground { step "Look at the hose." }
  }
  sign ground independent
}`,
    { only: ['crew'] },
  );
});

test('whoever inspects a step does not do it', () => {
  check(
    `card wash "Wash" {
  ${two}
  step inspected by ground "Fit the pin."
//^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ crew.missing
  step by cockpit inspected by pilot "Fit the pin."
  //                           ^^^^^ crew.unknown
}`,
    { only: ['crew'] },
  );
});
