/** Each row of the table of findings: code, level and place; and that one slip gives one finding. */
import { describe, expect, test } from 'vitest';
import { check, findingsOf } from '../support/check.ts';
import { codesOf, expectMarked, findingsIn, messageOf } from './support.ts';

const wrong = 'rule first "Lid first" { before drain open require lid open }';

describe('levels', () => {
  const table: readonly (readonly [code: string, level: string, body: string, given?: string, fields?: string])[] = [
    ['syntax.missing', 'error', 'step set drain'],
    ['name.unknown', 'error', 'step check drian closed'],
    ['name.duplicate', 'error', 'do p', 'procedure p() { step "Look." } procedure p() { step "Look." }'],
    ['name.recursion', 'error', 'do p', 'procedure p() { do p }'],
    ['name.unused', 'hint', 'step "Look."', 'kind cover { off, fitted }'],
    ['unit.unknown', 'error', 'step read pressure at least 20 pis'],
    ['unit.mismatch', 'error', 'step read pressure at least 20 V'],
    ['flow.unreachable', 'warning', 'finish step "Look."'],
    ['flow.never-passes', 'warning', 'step check drain open'],
    ['flow.always-passes', 'hint', 'if drain closed { step "Look." }'],
    ['flow.endless', 'error', 'step again: "Look." go to again'],
    ['flow.gap', 'warning', 'if pressure below 40 psi { step "Up." } else if pressure above 40 psi { step "Down." }'],
    [
      'flow.overlap',
      'warning',
      'if pressure at most 40 psi { step "Up." } else if pressure at least 30 psi { step "Down." }',
    ],
    ['state.no-change', 'hint', 'step set drain closed'],
    ['state.seen', 'error', 'step set lamp-1 off'],
    ['safety.rule', 'error', 'step set drain open step set drain closed', wrong],
    [
      'safety.warning-missing',
      'error',
      'step set drain open step set drain closed',
      'hazard h "spray" while drain open { warning "Hot." }',
    ],
    [
      'safety.warning-late',
      'error',
      'step set drain open warning h step set drain closed',
      'hazard h "spray" while drain open { warning "Hot." }',
    ],
    [
      'safety.unprotected',
      'error',
      'warning h step set drain open step set drain closed',
      'hazard h "spray" while drain open { warning "Hot." protect lid open }',
    ],
    ['safety.left-changed', 'error', 'step set drain open'],
    [
      'safety.unsafe-stop',
      'warning',
      'warning h step set drain open step check "Dry?" step set drain closed',
      'hazard h "spray" while drain open { warning "Hot." }',
    ],
    [
      'supply.not-fed',
      'error',
      'step run fan-1 running for 5 s',
      'item fan-1 : fan normally stopped needs power while running\nsupply power { source mains when plug-1 connected link mains -> fan-1 }',
    ],
    ['limit.looser', 'error', 'step read pressure at least 10 psi'],
    ['limit.empty', 'error', 'step read level 20 % to 10 %'],
    ['limit.off-scale', 'error', 'step read oil at most 200 psi', 'gauge oil "oil" in psi { reads 0 to 100 by 2 }'],
    [
      'limit.between-marks',
      'warning',
      'step read oil at most 31 psi',
      'gauge oil "oil" in psi { reads 0 to 100 by 2 }',
    ],
    ['limit.conflict', 'warning', 'step read level at most 40 % step read level at most 41 %'],
    ['limit.in-text', 'warning', 'step "Keep the oil pressure at 90 psi."'],
    [
      'duty.too-long',
      'error',
      'step run s cranking for 31 s',
      'item s : starter normally off { duty cranking at most 30 s }',
    ],
    [
      'duty.unbounded',
      'error',
      'step run s cranking for at least 3 s',
      'item s : starter normally off { duty cranking at most 30 s }',
    ],
    [
      'duty.short-rest',
      'error',
      'step { run s cranking for 3 s run s cranking for 3 s }',
      'item s : starter normally off { duty cranking at most 30 s, then rest 60 s }',
    ],
    [
      'duty.too-often',
      'error',
      'step { run s cranking for 3 s run s cranking for 3 s }',
      'item s : starter normally off { duty cranking at most 1 times in 1 h }',
    ],
    ['crew.unknown', 'error', 'step by nobody "Look."'],
    [
      'crew.missing',
      'warning',
      'step "Look." step by a "Look." step by b "Look."',
      '',
      'number "1" revision "A" crew a, b',
    ],
    [
      'crew.two-hands',
      'error',
      'together { by a { step set tap open } by b { step set tap open } }',
      '',
      'number "1" revision "A" crew a, b',
    ],
    [
      'safety.not-assumed',
      'error',
      'do other',
      'card other "Other" { number "2" revision "A" crew hand "Hand" assume tap open step check tap open }',
    ],
    [
      'duty.takes',
      'hint',
      'step takes 5 s { set s cranking wait 5 s set s off }',
      'item s : starter normally off { duty cranking at most 30 s }',
    ],
    [
      'noise.dose',
      'warning',
      'warning h step takes 1 s set drain open step takes 9 h set drain closed',
      'hazard h "hiss" while drain open { level 95 dBA warning "Loud." }',
    ],
    ['prose.long-sentence', 'hint', `step "Look ${'very long '.repeat(30)}at it."`],
    ['prose.several-actions', 'hint', 'step "Sweep the floor, wipe the bench and clean the bowl."'],
    ['prose.vague', 'hint', 'step "Let sufficient water run."'],
    ['prose.action-in-admonition', 'warning', 'note "Open the drain valve."'],
    ['prose.admonition-order', 'warning', 'note "The lid is light." warning "The lid is hot." step "Look."'],
    ['card.missing-field', 'warning', 'step "Look."', '', 'number "1"'],
    [
      'card.duplicate-number',
      'error',
      'step "Look."',
      'card other "Other" { number "T-1" revision "A" crew hand "Hand" step "Look." }',
    ],
    ['accept.unused', 'warning', 'step { accept prose.vague because "So." check drain closed }'],
  ];

  for (const [code, level, body, given, fields] of table) {
    test(`${code} is a finding at level ${level}`, () => {
      const findings = findingsIn(body, { ...(given && { given }), ...(fields && { fields }) });
      expect(findings.map((finding) => [finding.code, finding.level])).toEqual([[code, level]]);
    });
  }
});

describe('places', () => {
  test('a changed thing that is left stands at the last action that changed it', () => {
    expectMarked(
      '  step set vent open\n  step set vent closed\n  step set vent open\n  //   ^^^^^^^^^^^^^ safety.left-changed',
    );
  });

  test('of several things in one action the one that is meant is marked', () => {
    expectMarked(
      '  step set lid open, drain open\n  //                 ^^^^^^^^^^ safety.rule\n  step set drain closed, lid closed',
      {
        given: 'rule first "Vent first" { before drain open require vent open }',
      },
    );
    expectMarked(
      '  step set lid open, vent open\n  //                 ^^^^^^^^^ safety.left-changed\n  step set lid closed',
    );
  });

  test('an endless loop stands at the statement that closes it', () => {
    expectMarked(
      '  step again: "Look at the lamp."\n  step "Look at the lid."\n  go to again\n//^^^^^^^^^^^ flow.endless',
    );
  });

  test('of several steps in a row that nothing reaches the first is told', () => {
    expectMarked(
      '  finish\n  step "Look at the lamp."\n//^ flow.unreachable\n  step "Look at the lid."\n  step "Look up."',
    );
  });

  test('two hands stand at the first action of the later lane', () => {
    expectMarked(
      `
  together {
    by a { step set tap open }
    by b { step "Look." step set tap closed   step set tap open }
    //                       ^ crew.two-hands
  }`,
      { fields: 'number "1" revision "A" crew a "A", b "B"' },
    );
  });

  test('missing fields stand at the name of the card, all in one', () => {
    const [finding] = check('card bare "Bare" {\n//   ^^^^ card.missing-field\n  step "Look."\n}');
    for (const field of ['number', 'revision', 'crew']) expect(finding?.message).toContain(field);
  });

  test('a check that on every path fails stands at the check, and the first of the steps behind it is not reached', () => {
    expectMarked(
      '  step check drain open\n  //   ^^^^^^^^^^^^^^^^ flow.never-passes\n  step "Look."\n//^^^^^^^^^^^^ flow.unreachable\n  step "Look up."',
    );
  });

  test('a branch that always holds, or never, stands at the branch', () => {
    expectMarked('  if drain closed { step "Look." }\n//^^^^^^^^^^^^^^^ flow.always-passes');
    expectMarked(
      '  if drain open { step "Look." }\n//^^^^^^^^^^^^^ flow.never-passes\n//                ^^^^^^^^^^^^ flow.unreachable',
    );
    expectMarked('  step check drain closed');
  });
});

describe('one slip is one finding', () => {
  test.each([
    ['a state that is none', 'step set drain opn step set drain closed'],
    ['an item that is none', 'step set drian open step set drain open step set drain closed'],
    [
      'a hazard that is none',
      'warning spry step set drain open step set drain closed',
      'hazard spray "spray" while drain open { warning "Hot." }',
    ],
    ['a label that is none', 'if "Wet?" { go to agian } step again: "Look."'],
    [
      'a limit that is none',
      'step read pressure in noraml step set drain open step set drain closed',
      'rule oil "Oil" { before drain open require pressure in normal }',
    ],
    [
      'a unit that is none',
      'step { read pressure at least 30 pis set drain open } step set drain closed',
      'rule oil "Oil" { before drain open require pressure at least 30 psi }',
    ],
    ['a role that is none', 'step by hnad "Look."'],
    ['a procedure that is none', 'do lok', 'procedure look() { step "Look." }'],
    ['a kind that is none', 'step set cock open step set cock closed', 'item cock : vavle normally closed'],
    [
      'a supply that is none',
      'step run fan-1 running for 5 s',
      'item fan-1 : fan normally stopped needs pwoer while running\nsupply power { source mains link mains -> fan-1 }',
    ],
    [
      'a node that is none',
      'step run fan-1 running for 5 s',
      'item fan-1 : fan normally stopped needs power while running\nsupply power { source mains link mains -> left link lfet -> fan-1 }',
    ],
    ['a file that is none', 'step "Look."', 'use "nowhere.card"'],
    ['a word too many', 'step set drain open now step set drain closed'],
    ['a brace too many', 'step { set drain open } } step set drain closed'],
    ['a state left out', 'step set drain step set drain closed'],
    ['a misspelt beginning', 'setp set drain open step set drain closed'],
    ['a text that does not end', 'step "Look at the drain valve\n  step set drain open step set drain closed'],
    [
      'a wait without its time',
      'step { run s cranking for 3 s wait run s cranking for 3 s }',
      'item s : starter normally off { duty cranking at most 30 s, then rest 60 s }',
    ],
  ])('%s', (_, body, given?: string) => {
    const codes = codesOf(body, given ? { given } : {});
    expect(codes).toHaveLength(1);
    expect(codes.join()).toMatch(/^(syntax|name|unit|crew)\./);
  });

  test.each([
    ['a name', 'require nothing open'],
    ['a name under a not', 'require not nothing open'],
    ['a bound that is empty', 'require pressure 60 psi to 40 psi'],
  ])('in what a rule requires: %s', (_, require) => {
    const given = `rule r "R" {\n  before drain open\n  ${require}\n}`;
    expect(codesOf('step set drain open step set drain closed', { given })).toHaveLength(1);
  });

  test('and the rest of the file is still looked at', () => {
    expectMarked(`
  step set drain
  //       ^ syntax.missing
  step set vent open
  //   ^ safety.left-changed`);
  });
});

describe('names', () => {
  test('that are unknown propose the nearest', () => {
    for (const body of ['step check drian closed', 'step check drain clsoed', 'step read presure']) {
      const [finding] = findingsIn(body);
      expect(finding?.message).toMatch(/drain|closed|pressure/);
      expect(finding?.fixes.length).toBeGreaterThan(0);
    }
  });

  test('used twice are told at the second', () => {
    check(
      'kind tap { shut, open }\nitem one : tap normally shut\nitem one : tap normally shut\n//   ^^^ name.duplicate',
    );
  });

  test('of files that are missing or go in a circle are told at the use', () => {
    check('use "nowhere.card"\n//  ^^^^^^^^^^^^^^ name.unknown');
    const [finding] = findingsOf('use "main.card"');
    expect(finding?.code).toMatch(/^name\./);
  });
});

test('a finding has words for its path, and the fixes that mend it', () => {
  const [finding] = findingsIn('if "Wet?" { step set vent open }');
  expect(finding?.path.length).toBeGreaterThan(0);
  expect(finding?.fixes.length).toBeGreaterThan(0);
});

test('a message names the thing in the words of the writer', () => {
  expect(messageOf('step set cock open', { given: 'item cock : valve "the big red cock" normally closed' })).toMatch(
    /the big red cock/i,
  );
});
