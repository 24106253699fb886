import { expect, test } from 'vitest';
import { check, findingsOf } from '../../support/check.ts';

const gauge = 'gauge pressure "wash pressure" in psi { reads 0 to 100 by 1 }';

function withBody(body: string, before = gauge): string {
  return `${before}\ncard wash "Wash" {\n  number "1" revision "A" crew mechanic "Mechanic"\n${body}\n}`;
}

test('branches that meet leave nothing out', () => {
  check(
    withBody(`
  if pressure below 20 psi { step "Open the tap." }
  else if pressure 20 to 60 psi { step "Look at the hose." }
  else if pressure above 60 psi { step "Close the tap." }`),
  );
});

test('the gap is said in the unit of the gauge, within its scale', () => {
  const [finding] = check(
    withBody(`
  if pressure below 20 psi { step "Open the tap." }
//^ flow.gap
  else if pressure 20 to 60 psi { step "Look at the hose." }`),
  );
  expect(finding?.message).toContain('wash pressure is above 60 psi and at most 100 psi');
});

test('branches one after the other are held against each other like those of an else', () => {
  check(
    withBody(`
  if pressure at most 20 psi { step "Open the tap." }
//^ flow.gap
  if pressure at least 30 psi { step "Close the tap." }`),
  );
});

test('a last else takes what is left out', () => {
  check(
    withBody(`
  if pressure at most 20 psi { step "Open the tap." }
  else if pressure at least 30 psi { step "Close the tap." }
  else { step "Look at the hose." }`),
  );
});

test('a branch within another is a special case of it', () => {
  const findings = findingsOf(
    withBody(`
  if pressure at most 20 psi { step "Open the tap." }
  if pressure at most 10 psi { step "Look at the hose." }`),
    { only: ['flow.overlap'] },
  );
  expect(findings).toEqual([]);
});

test('without a scale only what lies between two branches is left out', () => {
  const bare = 'gauge pressure "wash pressure" in psi';
  check(
    withBody(
      '  if pressure 20 to 30 psi { step "Open the tap." } else if pressure above 30 psi { step "Look at the hose." }',
      bare,
    ),
  );
});

test('branches on different gauges are no row', () => {
  check(
    withBody(
      `  if pressure at most 20 psi { step "Open the tap." }
  if level at least 30 % { step "Close the tap." }`,
      `${gauge}\ngauge level "tank level" in %`,
    ),
  );
});

test('a check that never passes is reported, and not the steps behind it', () => {
  check(
    withBody(
      `
  step set drain open
  step check drain closed
  //   ^ flow.never-passes
  step "Look at the hose."`,
      'kind tap { closed, open }\nitem drain : tap "the drain"',
    ),
  );
});
