/** What each thing may be in, and what is known of a reading, on each path. */
import { describe, expect, test } from 'vitest';
import { codesOf, expectMarked, findingsIn, messageOf } from './support.ts';

const tapFirst = { given: 'rule first "Tap shut first" { before drain open require tap closed }' };
const openAndShut = (mark = '') => `  step set drain open\n${mark}\n  step set drain closed`;
const broken = openAndShut('  //   ^^^^^^^^^^^^^^ safety.rule');

describe('the start', () => {
  test('is the normal state of each thing', () => {
    expectMarked(openAndShut(), { given: 'rule first "Vent shut" { before drain open require vent closed }' });
  });

  test('is any state where there is no normal one, until the card sets or checks it', () => {
    expectMarked(broken, tapFirst);
    expectMarked(`  step check tap closed\n${openAndShut()}`, tapFirst);
    expectMarked(`  step set tap closed\n${openAndShut()}`, tapFirst);
    expectMarked(`  if tap closed {\n${openAndShut()}\n  }`, tapFirst);
  });

  test('is any state where the normal one is to be verified', () => {
    const given = { given: 'rule first "Gland shut" { before drain open require gland closed }' };
    expectMarked(broken, given);
    expectMarked(`  step check gland closed\n${openAndShut()}`, given);
  });

  test('is what is assumed, before both', () => {
    const fields = 'number "1" revision "A" crew hand "Hand" assume tap closed, gland closed because "Wired."';
    expectMarked(openAndShut(), { ...tapFirst, fields });
    expectMarked(openAndShut(), {
      given: 'rule first "Gland shut" { before drain open require gland closed and vent open }',
      fields: 'number "1" revision "A" crew hand "Hand" assume vent open, gland closed leaves vent open',
    });
  });
});

describe('what changes a state', () => {
  test('setting makes it one state, several from left to right', () => {
    const given = { given: 'rule order "Vent first" { before drain open require vent open }' };
    expectMarked('  step set vent open, drain open\n  step set drain closed, vent closed', given);
    expectMarked(
      '  step set drain open, vent open\n  //       ^^^^^^^^^^ safety.rule\n  step set drain closed, vent closed',
      given,
    );
  });

  test('a failed check leaves the other states', () => {
    expectMarked(
      `  step check tap open else go to on\n  finish\n  step on: "Look at the lamp."\n${openAndShut()}`,
      tapFirst,
    );
  });

  test('a run goes back to the state before it', () => {
    expectMarked(`  step run motor-1 running for 5 s\n${openAndShut()}`, {
      given: 'rule still "Motor still" { before drain open require motor-1 stopped }',
    });
  });

  test('what a run asks for holds while it lasts', () => {
    expectMarked('  step run motor-1 running for 5 s\n  //   ^ safety.rule', {
      given: 'rule guarded "Lid open" { while motor-1 running require lid open }',
    });
  });

  test('ensuring makes sure, however it was', () => {
    expectMarked(`  step ensure tap closed\n${openAndShut()}`, tapFirst);
    expectMarked(`  step ensure drain closed`);
  });
});

describe('what can only be seen', () => {
  const given = { given: 'rule dark "Lamp off" { before drain open require lamp-1 off }' };

  test('is never set', () => {
    expectMarked('  step set lamp-1 off\n  //       ^^^^^^^^^^ state.seen');
    expectMarked('  step run lamp-1 on for 5 s\n  //   ^ state.seen');
    expectMarked('  step ensure lamp-1 off\n  //          ^ state.seen');
  });

  test('is known from a look to the next action', () => {
    expectMarked(`  step { check lamp-1 off   set drain open }\n  step set drain closed`, given);
    expectMarked(`  step { check lamp-1 off   read pressure }\n${openAndShut()}`, given);
  });

  test.each([
    'step set vent open step set vent closed',
    'step run motor-1 running for 5 s',
    'step wait 5 s',
    'step bring pressure in normal',
    'step takes 5 s check drain closed',
    'step "Look at the lamp."',
  ])('may be anything after “%s”', (action) => {
    expectMarked(`  step check lamp-1 off\n  ${action}\n${broken}`, given);
  });

  test('never triggers what is asked before', () => {
    expectMarked('  step "Look at the lamp."\n  step wait 5 s', {
      given: 'rule lit "Lid open" { before lamp-1 on require lid open }',
    });
  });
});

describe('what goes by itself', () => {
  const item = 'item relay : contactor "the relay" normally closed may open';
  const rule = 'rule held "Relay closed" { before drain open require relay closed }';

  test('may be in the other state after each action', () => {
    expectMarked(openAndShut(), { given: `${item}\n${rule}` });
    expectMarked(`  step check relay closed\n  step "Look at the lamp."\n${broken}`, { given: `${item}\n${rule}` });
    expectMarked('  step { check relay closed   set drain open }\n  step set drain closed', {
      given: `${item}\n${rule}`,
    });
  });

  test('only while its condition holds', () => {
    const given = { given: `${item} when lid open\n${rule}` };
    expectMarked(`  step wait 5 s\n${openAndShut()}`, given);
    expectMarked(`  step set lid open\n  step set lid closed\n${broken}`, given);
  });

  test('triggers nothing that is asked before, and is not left changed by the card', () => {
    expectMarked('  step wait 5 s', { given: `${item}\nrule never "Lid open" { before relay open require lid open }` });
  });
});

describe('readings', () => {
  const oil = { given: 'rule oil "Oil first" { before drain open require pressure in normal }' };

  test('are unknown at the start', () => {
    expectMarked(broken, oil);
  });

  test.each([
    'read pressure in normal',
    'check pressure in normal',
    'bring pressure in normal',
    'read pressure 30 psi to 40 psi',
  ])('are known after “%s”', (asking) => {
    expectMarked(`  step { ${asking}   set drain open }\n  step set drain closed`, oil);
  });

  test('are known where a bound failed', () => {
    const given = { given: 'rule oil "Oil first" { before drain open require pressure at least 10 psi }' };
    expectMarked('  if pressure below 10 psi { finish }\n  step set drain open\n  step set drain closed', given);
  });

  test.each(['set vent open', 'run motor-1 running for 5 s', 'wait 5 s', 'bring level at least 20 %'])(
    'end at “%s”',
    (action) => {
      const closing = action === 'set vent open' ? '\n  step set vent closed' : '';
      expectMarked(`  step read pressure in normal\n  step ${action}\n${broken}${closing}`, oil);
    },
  );

  test.each(['takes 5 s check drain closed', '"Look at the lamp."'])('end at a step %s', (step) => {
    expectMarked(`  step read pressure in normal\n  step ${step}\n${broken}`, oil);
  });

  test('end where the path jumps back', () => {
    expectMarked(
      `
  step read pressure in normal
  repeat 2 times {
    step check drain closed
    step check pressure in normal else go to on
    step { set drain open set drain closed }
  }
  step on: check drain closed`,
      oil,
    );
  });

  test('are ended only by what moves them, where the gauge says so', () => {
    const given = `${oil.given.replaceAll('pressure in', 'force in')}
gauge force "force" in kg { limit normal 1 kg to 2 kg moved by vent }`;
    expectMarked(`  step read force in normal\n  step wait 5 s\n${openAndShut()}`, { given });
    expectMarked(`  step read force in normal\n  step set vent open\n${broken}\n  step set vent closed`, { given });
  });

  test('that cannot pass after what is known fail on every path', () => {
    expectMarked(`
  step { read pressure at least 60 psi   check pressure at most 40 psi }
  //                                     ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ flow.never-passes`);
  });
});

describe('paths', () => {
  test('are kept apart: what one path did is known on it', () => {
    expectMarked(
      `
  if "Left?" { step set drain open } else { step set vent open }
  if drain open { step set drain closed } else { step set vent closed }`,
    );
  });

  test('show the one that breaks it', () => {
    const [finding] = findingsIn(
      '  if "Wet?" { step set vent open }\n  step set drain open\n  step set drain closed, vent closed',
      { given: 'rule apart "Never both" { before drain open require vent closed }' },
      { only: ['safety'] },
    );
    expect(finding?.path.map(({ text }) => text).join(' | ')).toContain('the vent');
  });

  test('that are too many are blended, and the finding says that it may be a false alarm', () => {
    const valves = Array.from({ length: 8 }, (_, index) => `valve-${index}`);
    const given = {
      given: `item ${valves.join(', ')}, spare : valve normally closed
rule all "All or the spare one" { before drain open require ${valves.map((valve) => `${valve} closed`).join(' and ')} or spare open }`,
    };
    const body = `${valves.map((valve) => `if "Is ${valve} wet?" { step set ${valve} open }`).join('\n')}
step set drain open
step set drain closed
${valves.map((valve) => `step ensure ${valve} closed`).join('\n')}`;
    const exact = findingsIn(body, given);
    const blended = findingsIn(body, given, { settings: { stateBound: 10 } });
    expect(exact.map(({ code }) => code)).toEqual(['safety.rule']);
    expect(exact[0]?.message).not.toContain('false alarm');
    expect(blended.filter(({ code }) => code === 'safety.rule').map(({ message }) => message)).toEqual([
      expect.stringContaining('false alarm'),
    ]);
  });

  test('a question in quotes tells nothing of the machine', () => {
    const asked = 'step { check "Is the tap shut?" accept prose.unsaid-action because "Only asked." }';
    expect(codesOf(`${asked} step set drain open step set drain closed`, tapFirst)).toEqual(['safety.rule']);
    expect(messageOf(`${asked} step set drain open step set drain closed`, tapFirst)).toContain('the tap');
  });
});
