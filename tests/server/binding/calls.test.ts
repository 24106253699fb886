/** Procedures, cards that are done, rounds, labels: what is written out and what is refused. */

import { describe, expect, test } from 'vitest';
import type { Bound } from '../../../server/binding/bind.ts';
import type { Card, Do, ForEach, Step } from '../../../shared/card.ts';
import { exact } from '../../../shared/exact.ts';
import { bindText, expectMarked, only } from './support.ts';

/** The body of the card of this number. */
function bodyOf(bound: Bound, card = 0): Card['body'] {
  return bound.cards[card]?.body ?? [];
}

describe('a procedure', () => {
  const machine = `
item tap-1 "the left tap", tap-2 "the right tap" : valve
gauge oil "oil pressure" in psi { limit normal 40 to 60 psi }
gauge fuel "fuel flow" in L/min
procedure watch-it(v: valve, g: gauge) "Watch it" {
  step ready: by mechanic { set v open   read g in normal else go to ready }
  step "Look at {g} ({g.normal}) and {v}."
}
`;

  test('is written out with what it is done with', () => {
    const bound = expectMarked(`${machine} card c "C" { crew mechanic "M" do watch-it(tap-2, oil) }`);
    const call = bodyOf(bound, 0)[0] as Do;
    expect(call).toMatchObject({
      title: 'Watch it',
      arguments: [
        { name: 'v', thing: { name: 'tap-2' } },
        { name: 'g', thing: { name: 'oil' } },
      ],
    });
    const [first, second] = call.body as Step[];
    expect(first?.actions).toMatchObject([
      { changes: [{ item: { label: 'the right tap' } }] },
      { asked: { type: 'limit', limit: { name: 'normal' } }, otherwise: { target: { name: 'ready' } } },
    ]);
    expect(second?.texts[0]?.text).toBe('Look at oil pressure (40 to 60 psi) and the right tap.');
    expect(first?.place.start).toBe(machine.indexOf('step ready'));
  });

  test('has labels of its own each time', () => {
    const bound = expectMarked(
      `${machine} card c "C" { crew mechanic "M" do watch-it(tap-1, oil) do watch-it(tap-2, oil) }`,
    );
    const labels = (bodyOf(bound, 0) as Do[]).map((call) => (call.body[0] as Step).label);
    expect(labels[0]).not.toBe(labels[1]);
  });

  test('is looked at even when nobody does it', () => {
    const bound = expectMarked(`
      procedure p(v: valve, g: gauge) {
        step by anybody { set v opn   read g in anything   set g open }
        //                      ^^^ unknown-name
        //                                                     ^ wrong-sort
      }`);
    expect(bound.procedures[0]).toMatchObject({ name: 'p', parameters: [{ kind: 'valve' }, { kind: 'gauge' }] });
  });

  test('asks for as many arguments as it has parameters, of their kind', () => {
    expectMarked(
      `${machine} item m : motor
card c "C" {
  crew mechanic "M"
  do watch-it(tap-1)
//^^^^^^^^^^^^^^^^^^ argument-count
  do watch-it(oil, m)
  //          ^^^ argument-kind
  //               ^ argument-kind
  do watch-it(tap-2, oil)
}`.replace(/\n {2}(do|crew)/g, '\n  $1'),
    );
  });

  test('misfits are reported at the argument, not in the procedure', () => {
    const bound = expectMarked(`${machine} card c "C" {
  crew mechanic "M"
  do watch-it(tap-1, fuel)
  //                 ^^^^ argument-misfit
  do watch-it(tap-2, oil)
}`);
    expect(only(bound, 'argument-misfit')).toMatchObject({
      label: 'fuel flow',
      parameter: 'g',
      misfit: { type: 'unknown-name', sort: 'limit' },
    });
  });

  test('speaks of roles of the card that does it', () => {
    const bound = expectMarked(`${machine} card c "C" {
  crew pilot "P"
  step by pilot "Look"
  do watch-it(tap-1, oil)
  // ^^^^^^^^ unknown-role
  do watch-it(tap-2, oil)
  // ^^^^^^^^ unknown-role
}`);
    expect(bound.problems).toContainEqual(expect.objectContaining({ name: 'mechanic', done: 'watch-it' }));
  });
});

describe('recursion', () => {
  test('of one procedure', () => {
    const bound = expectMarked(
      'procedure p() { if "Again?" { do p() } }\n//                               ^ recursion',
    );
    expect(only(bound, 'recursion').through).toEqual(['p', 'p']);
    expect(bound.procedures[0]?.body).toMatchObject([{ type: 'if', body: [] }]);
  });

  test('by way of another, once', () => {
    const bound = expectMarked(`
      procedure p() { step "A" do q() }
      procedure q() { step "B" do p() }
      //                          ^ recursion
      card c "C" { do p() }`);
    expect(only(bound, 'recursion').through).toEqual(['p', 'q', 'p']);
  });

  test('of cards', () => {
    expectMarked(`
      card a "A" { do b }
      card b "B" { do a }
      //              ^ recursion`);
  });
});

test('what is too long when written out is refused at the card', () => {
  const levels = Array.from({ length: 6 }, (_, n) => `procedure p${n}() { ${`do p${n + 1}() `.repeat(10)} }`).join(
    '\n',
  );
  const bound = bindText(`${levels} procedure p6() { step "Look" } card c "C" { do p0() }`);
  expect(only(bound, 'too-large').place).toMatchObject({ start: bound.cards[0]?.body[0]?.place.start });
});

test('what is done too deep is refused too, and what is done by a slip of the pen does not come back to itself', () => {
  const chain = Array.from({ length: 3000 }, (_, n) => `procedure p${n}() { step "Look" do p${n + 1}() }`).join('\n');
  const deep = bindText(`${chain} procedure p3000() { step "Look" } card c "C" { do p0() }`);
  expect(only(deep, 'too-large').place).toMatchObject({ start: deep.cards[0]?.body[0]?.place.start });
  expectMarked('card purge "Purge" { do purg }\n//                      ^^^^ unknown-name');
});

describe('a card that is done', () => {
  test('brings its assumptions and has the crew of the caller', () => {
    const bound = expectMarked(`
      item v : valve
      card inner "Inner" { number "7" crew mechanic "Somebody else" assume v open step by mechanic "Do it" }
      card outer "Outer" { crew mechanic "Mechanic" step by mechanic set v open do inner }`);
    const call = bodyOf(bound, 1)[1] as Do;
    expect(call.callee).toMatchObject({ type: 'card', number: '7', assumes: [{ state: 1 }] });
    expect((call.body[0] as Step).roles[0]?.label).toBe('Mechanic');
  });
});

describe('for each', () => {
  const taps = 'item tap-1, tap-2 : valve   item m : motor\n';

  test('goes through a kind in the order of declaration', () => {
    const bound = expectMarked(
      `${taps} card c "C" { step set m running for each x in valve { step here: set x open } }`.replace('here: ', ''),
    );
    const each = bodyOf(bound, 0)[1] as ForEach;
    expect(each.items.map(({ name }) => name)).toEqual(['tap-1', 'tap-2']);
    expect(each.rounds).toMatchObject([
      [{ actions: [{ changes: [{ item: { name: 'tap-1' } }] }] }],
      [{ actions: [{ changes: [{ item: { name: 'tap-2' } }] }] }],
    ]);
  });

  test('goes through a list as it is written, and looks at each', () => {
    expectMarked(`${taps} card c "C" {
  for each x in tap-2, m, tap-1 { step set x open }
  //                                         ^^^^ unknown-name
}`);
  });

  test('of a kind without items still has its names looked at', () => {
    const bound = expectMarked(
      'card c "C" { for each x in valve { step set x opn } }\n//                                            ^^^ unknown-name',
    );
    expect((bodyOf(bound, 0)[0] as ForEach).rounds).toEqual([]);
  });

  test('goes through values, which stand for quantities, times and words', () => {
    const bound = expectMarked(`${taps} gauge p "pressure" in bar card c "C" {
  for each pass in 10, 18 N.m { step "Up to {pass}." { tighten "the bolts" to pass +/- 1 N.m } }
  for each soak in 2 min, 5 min { step { wait soak   run m running for soak } }
  for each most in 2 bar, 30 psi { step read p at most most }
}`);
    expect(bodyOf(bound, 0)).toMatchObject([
      {
        rounds: [
          [{ texts: [{ text: 'Up to 10 N·m.' }], actions: [{ torque: { low: { value: exact('9') } } }] }],
          [{ texts: [{ text: 'Up to 18 N·m.' }], actions: [{ torque: { high: { value: exact('19') } } }] }],
        ],
      },
      {
        rounds: [
          [{ actions: [{ length: { least: exact('120') } }, {}] }],
          [{ actions: [{ length: { least: exact('300') } }, {}] }],
        ],
      },
      { rounds: [[{}], [{}]] },
    ]);
  });

  test('takes a value only where its unit fits, and nothing else for a value', () => {
    expectMarked(`${taps} gauge p "pressure" in bar card c "C" {
  for each pass in 10 N.m {
    step read p at most pass
    //                  ^^^^ unit-mismatch
    step tighten "the bolts" to tap-1
    //                          ^^^^^ wrong-sort
    step wait pas
    //        ^^^ unknown-name
    step set pass open
    //       ^^^^ wrong-sort
  }
}`);
  });

  test('may name its item as an argument', () => {
    expectMarked(
      `${taps} procedure p(v: valve) { step set v open } card c "C" { step set m running for each x in valve { do p(x) } }`,
    );
  });
});

describe('any and every', () => {
  test('are written out over the items of the kind', () => {
    const { equipment } = expectMarked(
      'item a, b : valve   rule r "R" { while any valve open require every pump stopped }',
    );
    const [rule] = equipment.rules;
    expect(rule?.condition).toMatchObject({
      quantifier: 'any',
      written: { type: 'or', terms: [{ state: 1 }, { state: 1 }] },
    });
    expect(rule?.require).toMatchObject({ quantifier: 'every', written: { type: 'and', terms: [] } });
  });
});

describe('jumps', () => {
  test('lead to steps and stages around them, from a block too', () => {
    expectMarked(`card c "C" {
  stage "One" { step first: "Look" if "Again?" { go to first } }
  stage two "Two" { step "Look" }
  repeat 2 times { step inner: "Look" if "Bad?" { go to inner } }
  go to two
}`);
  });

  test('do not lead into blocks, lanes and when-stopped stages, nor out of a lane', () => {
    const bound = expectMarked(`card c "C" {
  crew a "A", b "B"
  step out: by a "Look"
  if "So?" { step in-if: by a "Look" }
  go to in-if
  //    ^^^^^ unreachable-label
  together {
    by a { step in-lane: "Look" go to out }
    //                                ^^^ unreachable-label
    by b { step "Look" go to in-lane }
    //                       ^^^^^^^ unreachable-label
  }
  stage over "Over" when stopped { step by a "Look" step last: by a "Look" go to last }
  go to over
  //    ^^^^ unreachable-label
}`);
    expect(bound.problems.map((problem) => 'reason' in problem && problem.reason)).toEqual([
      'into a block',
      'out of a lane',
      'into a lane',
      'into a when-stopped stage',
    ]);
  });
});
