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

test('branches one after the other are two questions, not a row', () => {
  check(
    withBody(`
  if pressure at most 20 psi { step "Open the tap." }
  if pressure at least 30 psi { step "Close the tap." }
  if pressure 25 to 40 psi { step "Look at the hose." }`),
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
  else if pressure at most 10 psi { step "Look at the hose." }`),
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

test('a check that never passes is reported, and the first of the steps behind it', () => {
  check(
    withBody(
      `
  step set drain open
  step check drain closed
  //   ^ flow.never-passes
  step "Look at the hose."
//^ flow.unreachable
  step "Look at the tap."`,
      'kind tap { closed, open }\nitem drain : tap "the drain"',
    ),
  );
});

test.each([
  [
    'the lowest values that two share are told',
    ['at least 60 psi', 'at most 30 psi', '20 to 40 psi'],
    'from 20 psi to 30 psi',
  ],
  [
    'two that share values are found behind one that lies within both',
    ['10 to 50 psi', '20 to 30 psi', '40 to 60 psi'],
    'from 40 psi to 50 psi',
  ],
  ['ends that are closed on both sides share one value', ['at most 20 psi', 'at least 20 psi'], '20 psi'],
])('%s', (_, bounds, words) => {
  const body = bounds.map((bound) => `if pressure ${bound} { step "Look at the hose." }`).join(' else ');
  const findings = findingsOf(withBody(body), { only: ['flow.overlap'] });
  expect(findings.map(({ message }) => message)).toEqual([expect.stringContaining(`is ${words}.`)]);
});

test.each([
  ['within one another', ['10 to 50 psi', '20 to 40 psi', '30 to 35 psi', '10 to 18 psi']],
  ['the same', ['10 to 50 psi', '10 to 50 psi']],
  ['with the same beginning or the same end', ['10 to 50 psi', '10 to 20 psi', '30 to 50 psi']],
  ['that only meet', ['at most 20 psi', 'above 20 psi']],
])('branches %s share nothing that matters', (_, bounds) => {
  const body = bounds.map((bound) => `if pressure ${bound} { step "Look at the hose." }`).join(' else ');
  expect(findingsOf(withBody(body), { only: ['flow.overlap'] })).toEqual([]);
});

test('a gap is said in the figures that the writer wrote, and the fix stops the work there', () => {
  const [finding] = findingsOf(
    withBody(
      `  if pressure at most 1.5 psi { step "Open the tap." } else if pressure above 20 kPa { step "Close the tap." }`,
      'gauge pressure "wash pressure" in kPa { reads 0 to 700 }',
    ),
  );
  expect(finding?.message).toContain('wash pressure is above 1.5 psi and at most 20 kPa');
  expect(finding?.fixes?.map(({ title }) => title)).toEqual([
    'Insert: else { stop "Report that wash pressure is above 1.5 psi and at most 20 kPa." }',
  ]);
});

test('a loop without a way out is mended by a question', () => {
  const [finding] = findingsOf(withBody('  step again: "Look at the hose."\n  go to again'), {
    only: ['flow.endless'],
  });
  expect(finding?.fixes?.map(({ title }) => title)).toEqual([
    'Change to: if "Is it to be done again?" { go to again }',
  ]);
});

test('a repeat whose end never comes is not called a check', () => {
  const valve = 'kind valve { closed   open }\nitem drain : valve "the drain valve" normally closed';
  const [finding] = findingsOf(
    withBody(
      '  step set drain closed\n  repeat at most 3 times until drain open { step "Look." } else stop "Report."',
      valve,
    ),
    { only: ['flow.never-passes'] },
  );
  expect(finding?.message).toMatch(/^On no path does this repeat come to/);
});

test('what is so on every path of one card alone is not told of a text that another comes to as well', () => {
  const door = 'item d : door "the door" normally closed\n';
  const codes = (text: string) => findingsOf(`${door}${text}`, { only: ['state', 'flow'] }).map(({ code }) => code);
  const open = 'card open-it "Open it" { leaves d open step set d open }';
  const look = 'procedure look() { if d open { step set d closed } }';
  expect(codes(`${open} card all "All" { step set d open do open-it step set d closed }`)).toEqual([]);
  expect(codes(`${look} card a "A" { step set d open do look() } card b "B" { do look() step "Go." }`)).toEqual([
    'flow.unreachable',
  ]);
  expect(codes(`${look} card a "A" { step set d open do look() } card b "B" { step set d open do look() }`)).toEqual([
    'flow.always-passes',
  ]);
});

test('behind a jump to nowhere nothing is called unreachable, on no machine', () => {
  const found = findingsOf(
    withBody(
      '  step only kk a1 { check "Is it dry?" else go to nowhere }\n  finish\n  step "Look."',
      'variant kk a1, b1',
    ),
  );
  const codes = found.map(({ code }) => code);
  expect(codes).toContain('name.unknown');
  expect(codes).not.toContain('flow.unreachable');
});
