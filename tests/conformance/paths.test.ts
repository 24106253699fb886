/** A card is a graph: which ways lead through its statements, and which are refused. */
import { describe, expect, test } from 'vitest';
import { findingsOf } from '../support/check.ts';
import { card, codesOf, expectMarked, findingsIn, messageOf } from './support.ts';

describe('ends', () => {
  test('falling off the last stage finishes', () => {
    expectMarked('  stage "One" {\n    step set drain open\n    //   ^^^^^^^^^^^^^^ safety.left-changed\n  }');
  });

  test('a finish anywhere is one', () => {
    expectMarked(`
  step set drain open
  //   ^^^^^^^^^^^^^^ safety.left-changed
  if "Is it late?" { finish }
  step set drain closed`);
  });

  test.each([
    'check "Is it dry?"',
    'read pressure in normal',
    'bring pressure in normal',
    'wait until lamp-1 off within 5 s',
    'run motor-1 running until lamp-1 on within 5 s',
  ])('a failed “%s” stops the card, and that is no finish', (asking) => {
    const given = { given: 'rule shut "Shut at a stop" { at stop require drain closed }' };
    expectMarked(`  step set drain open\n  step ${asking}\n  //   ^ safety.rule\n  step set drain closed`, given);
    expectMarked(`  step ${asking}\n  step set drain open\n  step set drain closed`, given);
  });

  test('so does a wait that says no time', () => {
    expect(
      codesOf('step set drain open step wait until lamp-1 off step set drain closed', {
        given: 'rule shut "Shut at a stop" { at stop require drain closed }',
      }),
    ).toEqual(['safety.rule']);
  });

  test('so does a watch, and it is the watch that is told', () => {
    expectMarked(
      `
  step set drain open
  step run motor-1 running for 5 s { watch pressure reaches at least 20 psi within 3 s }
  //                                 ^ safety.rule
  step set drain closed`,
      { given: 'rule shut "Shut at a stop" { at stop require drain closed }' },
    );
  });

  test('where it says what to do else, it does that', () => {
    expectMarked(`
  step set drain open
  step check "Is it dry?" else go to on
  step "Look at the lamp."
  step on: set drain closed`);
  });
});

describe('branches and rounds', () => {
  test('a question goes either way', () => {
    expectMarked(`
  if "Is it wet?" { step set drain open }
  //                     ^^^^^^^^^^^^^^ safety.left-changed
  step "Look at the lamp."`);
  });

  test('a loop until something asks after each round, and so it is known behind the loop', () => {
    const given = { given: 'rule first "Tap first" { before drain open require tap open }' };
    const after = 'step set drain open\n  //   ^ safety.rule\n  step set drain closed';
    const loop = 'repeat at most 3 times until tap open { step "Turn the tap." }';
    expectMarked(`  ${loop}\n  ${after.replace('  //   ^ safety.rule\n', '')}`, given);
    expectMarked(`  ${loop} else go to on\n  step on: "Look at the lamp."\n  ${after}`, given);
  });

  test('the loop itself stops the card where it never comes about', () => {
    expectMarked(
      `
  step set drain open
  repeat at most 3 times until "It is dry" { step "Dry it." }
//^ safety.rule
  step set drain closed`,
      { given: 'rule shut "Shut at a stop" { at stop require drain closed }' },
    );
  });

  test('a first round is always done', () => {
    expectMarked(`
  repeat at most 2 times until tap open { step set drain open }
  //                                           ^ safety.left-changed`);
  });

  test('one way of several is taken', () => {
    expectMarked(`
  choose {
    "With the drain" { step set drain open }
    //                      ^ safety.left-changed
    or "With the vent" { step set vent open }
    //                        ^ safety.left-changed
  }`);
  });

  test('each item of a list comes in the order of the list, of a kind in that of declaration', () => {
    const given = { given: 'rule order "Vent first" { before drain open require vent open }' };
    const closing = 'step set drain closed, vent closed';
    expectMarked(`  for each one in vent, drain { step set one open }\n  ${closing}`, given);
    expect(codesOf(`for each one in drain, vent { step set one open } ${closing}`, given)).toEqual(['safety.rule']);
    const caps = 'item left, right : cap normally fitted';
    const rule = (first: string, second: string) =>
      `${caps}\nrule order "In order" { before ${second} removed require ${first} removed }`;
    const both = 'for each one in cap { step set one removed } for each one in cap { step set one fitted }';
    expect(codesOf(both, { given: rule('left', 'right') })).toEqual([]);
    expect(codesOf(both, { given: rule('right', 'left') })).toEqual(['safety.rule']);
  });
});

describe('what is done elsewhere', () => {
  test('is entered with its arguments', () => {
    const message = messageOf('  do turn(drain)', { given: 'procedure turn(one: valve) { step set one open }' });
    expect(message).toContain('drain');
  });

  test('may not come back to itself', () => {
    const given = 'procedure one() { do two }\nprocedure two() { do one }';
    expect(codesOf('do one', { given })).toEqual(['name.recursion']);
  });

  test('has the roles of the card that does it', () => {
    const given = 'procedure look() { step by ground "Look at the lamp." }';
    const crew = (roles: string) => ({ given, fields: `number "1" revision "A" crew ${roles}` });
    expect(codesOf('do look step by cockpit "Look."', crew('cockpit, ground'))).toEqual([]);
    expect(codesOf('do look', crew('cockpit'))).toEqual(['crew.unknown']);
  });

  test('has labels of its own', () => {
    const given = 'procedure look() { step again: "Look." if "Again?" { go to again } }';
    expect(codesOf('step again: "Look up." if "Again?" { go to again } do look', { given })).toEqual([]);
    expectMarked('  step out: "Look." if "Again?" { go to out } do leave', {
      given: 'procedure leave() {\n  if "Late?" { go to out }\n  //                 ^^^ name.unknown\n}',
    });
  });

  test('goes on behind the call where it finishes, and nowhere where it stops', () => {
    expectMarked('  do early\n  step set drain open\n  //   ^ safety.left-changed', {
      given: 'procedure early() { finish }',
    });
    expectMarked('  do early\n  step "Look at the lamp."\n//^ flow.unreachable', {
      given: 'procedure early() { stop "Report it." }',
    });
  });

  test('may be another card, which finishes back into this one', () => {
    expectMarked('  do other\n  step set drain closed', {
      given: `card other "Other" {
  number "T-2" revision "A" crew hand "Hand"
  leaves drain open
  step set drain open
  finish
}`,
    });
  });
});

describe('jumps', () => {
  test.each([
    ['into an if', 'if "Wet?" { step inner: "Look." }'],
    ['into a loop', 'repeat 2 times { step inner: "Look." }'],
    ['into a way', 'choose { "Left" { step inner: "Look." } or "Right" { step "Turn." } }'],
    ['into a stage for stops', 'stage "Safe" when stopped { step inner: "Look." }'],
  ])('%s are refused at the label', (_, block) => {
    expectMarked(`  if "Late?" { go to inner }\n  //                 ^^^^^ name.unknown\n  ${block}`);
  });

  test('into a lane and out of it are refused', () => {
    const fields = 'number "1" revision "A" crew a "A", b "B"';
    expectMarked(
      `
  step by a out: "Look." 
  together {
    by a { step inner: "Look." if "Late?" { go to out } }
    //                                            ^^^ name.unknown
    by b { step "Look." }
  }
  if "Late?" { go to inner }
  //                 ^^^^^ name.unknown`.replace('by a out:', 'out: by a'),
      { fields },
    );
  });

  test('into a stage and out of a block are fine', () => {
    expectMarked(`
  stage "One" { if "Late?" { go to there } }
  stage "Two" {
    step "Look at the hose."
    step there: "Look at the lamp."
  }`);
  });
});

describe('lanes', () => {
  const fields = 'number "1" revision "A" crew a "A", b "B"';
  const given = 'rule apart "Never both" { while drain open require vent closed }';

  test('every order counts, whatever the times', () => {
    const body = (between: string) => `together {
    by a { step takes 1 s set drain open step takes 1 s set drain closed }
    by b { ${between} step takes 1 s set vent open step takes 1 s set vent closed }
  }`;
    for (const wait of ['', 'step wait 1 h'])
      expect(new Set(codesOf(body(wait), { given, fields }))).toEqual(new Set(['safety.rule']));
  });

  test('what comes before and behind is ordered', () => {
    expect(
      codesOf(
        `together { by a { step set drain open step set drain closed } by b { step "Look." } }
      step by b set vent open step by b set vent closed`,
        { given, fields },
      ),
    ).toEqual([]);
  });
});

describe('keeping', () => {
  test('the condition is known at each step of its stage, and no longer behind it', () => {
    expectMarked(
      `
  stage "Under pressure" {
    keep pressure in normal
    step "Look at the lamp."
    step set drain open
    step set drain closed
  }
  stage "After" {
    step "Look at the lamp."
    step set drain open
    //   ^^^^^^^^^^^^^^ safety.rule
    step set drain closed
  }`,
      { given: 'rule oil "Oil first" { before drain open require pressure in normal }' },
    );
  });

  test('each step may leave by the else, before its actions', () => {
    expectMarked(`
  stage "One" {
    keep pressure in normal else finish
    step set drain open
    //   ^ safety.left-changed
    step set drain closed
  }`);
    expectMarked(`
  stage "One" {
    keep pressure in normal else finish
    step { set drain open set drain closed }
  }`);
  });

  test('without an else it stops, which is told once', () => {
    expectMarked(
      `
  stage "One" {
    step set drain open
    keep pressure in normal
  //^ safety.rule
    step "Look at the lamp."
    step set drain closed
  }`,
      { given: 'rule shut "Shut at a stop" { at stop require drain closed }' },
    );
  });
});

describe('a stage for stops', () => {
  const given = 'rule shut "Shut at a stop" { at stop require drain closed }';

  test('is no part of the run, and every stop goes through it', () => {
    expectMarked(
      `
  step set drain open
  step check "Is it dry?"
  step set drain closed
  stage "Make safe" when stopped { step set drain closed }`,
      { given },
    );
  });

  test('a stop in it just ends', () => {
    const stage = 'stage "Safe" when stopped { step check "Can you reach it?" step set drain closed }';
    expect(codesOf(`step set drain open step check "Is it dry?" step set drain closed ${stage}`, { given })).toEqual([
      'safety.rule',
    ]);
  });

  test('of a card that is done does not count, that of its caller does', () => {
    const other = `card other "Other" {
  number "T-2" revision "A" crew hand "Hand"
  leaves drain open because "Its caller closes it."
  step check "Is it dry?"
  step set drain open
  step check "Is it clean?"
  stage "Make safe" when stopped { step set vent open }
}`;
    const body = (stage: string) => `do other step set drain closed ${stage}`;
    const find = (stage: string) =>
      findingsIn(body(stage), { given: `${given}\n${other}` }).filter(({ code }) => code === 'safety.rule');
    expect(find('stage "Safe" when stopped { step set drain closed }')).toHaveLength(1);
    expect(find('')).toHaveLength(1);
  });
});

test('equal findings of a written-out text are told once', () => {
  const text = card('do look do look', { given: 'procedure look() { step set drain }' });
  expect(findingsOf(text, { files: { 'machine.card': 'item drain : valve normally closed' } })).toHaveLength(1);
});
