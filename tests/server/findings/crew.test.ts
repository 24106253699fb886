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
