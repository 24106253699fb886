/** Unknown, wrong, doubled and unused names in one file. */

import { describe, expect, test } from 'vitest';
import { nearest } from '../../../server/binding/nearest.ts';
import { check } from '../../support/check.ts';
import { bindText, expectMarked, expectUnused, only } from './support.ts';

const machine = `
item fill-valve : valve "the fill valve" normally closed
item fill-pump : pump "the fill pump" normally stopped
gauge oil-level "the oil level" in L { limit full at least 20 L }
supply air "air" { source fill-pump when fill-pump running link fill-pump -> fill-valve }
hazard spill "a spill" while fill-valve open { warning "Oil on the floor." }
variant unit 1 to 4
variant fit old, new
`;

describe('an unknown name is reported with the nearest', () => {
  test.each([
    ['kind', 'item drain : valv\n//           ^^^^ unknown-name', 'valve'],
    [
      'item',
      'rule r "R" { before fil-valve open require every pump stopped }\n//                  ^^^^^^^^^ unknown-name',
      'fill-valve',
    ],
    [
      'state',
      'rule r "R" { at end require fill-valve opn }\n//                                     ^^^ unknown-name',
      'open',
    ],
    [
      'gauge',
      'rule r "R" { at end require oil-levl in full }\n//                          ^^^^^^^^ unknown-name',
      'oil-level',
    ],
    [
      'limit',
      'rule r "R" { at end require oil-level in ful }\n//                                       ^^^ unknown-name',
      'full',
    ],
    [
      'supply',
      'rule r "R" { at end require airr reaches fill-valve }\n//                          ^^^^ unknown-name',
      'air',
    ],
    [
      'node',
      'rule r "R" { at end require air reaches fil-valve }\n//                                      ^^^^^^^^^ unknown-name',
      'fill-valve',
    ],
    [
      'kind',
      'rule r "R" { at end require every vlve closed }\n//                                ^^^^ unknown-name',
      'valve',
    ],
    ['hazard', 'card c "C" { warning spil }\n//                   ^^^^ unknown-name', 'spill'],
    ['variant', 'card c "C" { applies unti 2 }\n//                   ^^^^ unknown-name', 'unit'],
    ['value', 'card c "C" { applies fit olf }\n//                       ^^^ unknown-name', 'old'],
    ['value', 'card c "C" { applies unit 3 to 5 }\n//                             ^ unknown-name', '1'],
    ['label', 'card c "C" { go to ende stage end "End" { } }\n//                 ^^^^ unknown-name', 'end'],
    ['procedure', 'card c "C" { do a-lot }\n//              ^^^^^ unknown-name', undefined],
    [
      'item',
      'card c "C" { step "Look at {fil-valve}" }\n//                          ^^^^^^^^^ unknown-name',
      'fill-valve',
    ],
    [
      'limit',
      'card c "C" { step "Fill to {oil-level.ful}" }\n//                                    ^^^ unknown-name',
      'full',
    ],
  ])('%s', (sort, line, nearest) => {
    const problem = only(expectMarked(machine + line), 'unknown-name');
    expect({ sort: problem.sort, nearest: problem.near[0] }).toEqual({ sort, nearest });
  });

  test('a role, in a code of its own', () => {
    const bound = expectMarked(`card c "C" {
      crew mechanic "Mechanic", observer "Observer"
      step by observer "Look"
      step by mechanik "Do it"
      //      ^^^^^^^^ unknown-role
    }`);
    expect(only(bound, 'unknown-role').near).toEqual(['mechanic']);
  });

  test('a card without a crew lacks a field; its roles are not reported one by one', () => {
    expectMarked('card c "C" { step by mechanic "Do it" }');
  });

  test('letters of any script, and capitals count', () => {
    expectMarked(`
      item Füllventil : valve
      rule r "R" { at end require Füllventil closed }
      rule s "S" { at end require füllventil closed }
      //                          ^^^^^^^^^^ unknown-name`);
  });
});

test('a title that no stage has, and one that several have, is no place to go to', () => {
  check(
    `card c "C" {
  number "1" revision "A" crew f "Fitter"
  stage "Look" { step "Look." step check "Dry?" else go to "Cloze the pump" }
  //                                                       ^^^^^^^^^^^^^^^^ name.unknown
  stage "Close the pump" { step check "Dry?" else go to "Turn" }
  //                                                    ^^^^^^ name.unknown
  stage "Turn" { step "Turn it." }
  stage "Turn" { step check "Dry?" else go to "Close the pump" }
}`,
    { only: ['name'] },
  );
});

describe('one slip, one problem', () => {
  test('what an item of unknown kind can be is not asked', () => {
    expectMarked(`
      item drain : vlv normally closed
      //           ^^^ unknown-name
      card c "C" { step { set drain anything   check drain whatever } }`);
  });

  test('binding goes on with the name that was surely meant', () => {
    const bound = bindText(
      `${machine} card c "C" { crew m "M" step by m set fill-vale open go to ende stage end "End" { } }`,
    );
    expect(bound.problems.filter(({ type }) => type !== 'unused')).toMatchObject([
      { name: 'fill-vale' },
      { name: 'ende' },
    ]);
    const [step, go, end] = bound.cards[0]?.body ?? [];
    expect(step).toMatchObject({ actions: [{ type: 'set', changes: [{ item: { name: 'fill-valve' } }] }] });
    expect(go).toMatchObject({ type: 'go', target: { name: 'end' } });
    expect(end).toMatchObject({ label: { name: 'end' } });
  });

  test('of two that are as near none is taken', () => {
    const bound = bindText('item tap-1, tap-2 : valve card c "C" { step { set tap-3 open   check tap-4 open } }');
    expect(bound.cards[0]?.body).toMatchObject([{ actions: [{ type: 'check', condition: { type: 'open' } }] }]);
  });

  test('the way out of a reading of an unknown gauge is kept', () => {
    const bound = bindText('card c "C" { step read whatever at least 5 psi else finish }');
    expect(bound.cards[0]?.body).toMatchObject([
      { actions: [{ type: 'check', condition: { type: 'open' }, otherwise: { type: 'finish' } }] },
    ]);
  });

  test('a name that stands in text that was not understood is known to nobody, and reported by nobody', () => {
    const bound = bindText(`
      item pump-1 pump "the pump"
      card c "C" { crew m "M" step by m set pump-1 running }`);
    expect(bound.problems).toEqual([]);
  });
});

describe('a name of another sort', () => {
  test('is told from an unknown one', () => {
    const bound = expectMarked(`${machine}
      rule r "R" { at end require oil-level open }
      //                          ^^^^^^^^^ wrong-sort`);
    expect(only(bound, 'wrong-sort')).toMatchObject({ expected: 'item', found: 'gauge' });
  });
});

describe('a second declaration', () => {
  test('of things that can stand in the same place', () => {
    const bound = expectMarked(`
      item pressure : valve
      gauge pressure in psi
      //    ^^^^^^^^ duplicate-name`);
    expect(only(bound, 'duplicate-name')).toMatchObject({ sort: 'gauge', firstSort: 'item' });
  });

  test('of each sort', () => {
    expectMarked(`
      kind tap { shut, open, shut }
      //                     ^^^^ duplicate-name
      kind tap { a, b }
      //   ^^^ duplicate-name
      gauge flow in L/min { limit low below 1 L/min limit low below 2 L/min }
      //                                                  ^^^ duplicate-name
      hazard h "H" while every tap open { note "N" }
      hazard h "H" while every tap open { note "N" }
      //     ^ duplicate-name
      variant fit old, old
      //               ^^^ duplicate-name
      procedure p(a: tap, a: tap) { step set a open }
      //                  ^ duplicate-name
      card c "C" {
        crew m "M", m "N"
        //          ^ duplicate-name
        step s: by m "Do it"
        repeat 2 times { step s: by m "Do it again" }
        //                    ^ duplicate-name
        if "Done?" { go to s }
        do p(flow)
        //   ^^^^ argument-kind
        note h
      }
      card c "C" { applies fit old }
      //   ^ duplicate-name`);
  });

  test('of a kind and an item is none: they never stand in the same place', () => {
    expectMarked('item pump : pump   rule r "R" { at end require pump stopped and every pump stopped }');
  });

  test('of a shipped kind stands before it', () => {
    const bound = expectMarked('kind valve { a, b }   item v : valve normally b');
    expect(bound.equipment.items[0]?.kind.states.map(({ name }) => name)).toEqual(['a', 'b']);
  });

  test('of a part that can be said once', () => {
    expectMarked(`
      item v : valve normally open normally closed
      //                           ^^^^^^^^^^^^^^^ said-twice
      card c "C" { number "1" number "2"
      //                      ^^^^^^^^^^ said-twice
      }`);
  });

  test('of an item in a head: a card begins and ends with it in one state', () => {
    const bound = expectMarked(`
      item v : valve normally open
      item w : valve normally open
      card c "C" {
        assume v closed, w closed
        assume v open
        //     ^^^^^^ said-twice
        leaves v closed, v open
        //               ^^^^^^ said-twice
      }`);
    expect(bound.cards[0]?.leaves.map(({ item, state }) => item.kind.states[state]?.name)).toEqual(['closed']);
  });
});

describe('unused names', () => {
  test('are told in a file with a card', () => {
    expectUnused(`
      kind tap { shut, open }
      //   ^^^ unused
      item v-1, v-2 : valve
      //        ^^^ unused
      gauge g in psi { limit low below 5 psi }
      //    ^ unused
      variant unit 1 to 2
      //      ^^^^ unused
      procedure p(v: valve) { step "Nothing" }
      //        ^ unused
      card c "C" {
        crew m "M", n "N"
        //          ^ unused
        step here: by m set v-1 open
        //   ^^^^ unused
      }`);
  });

  test('are not told in a file that others use', () => {
    expectUnused('item v : valve   procedure p(x: valve) { step set x open }');
  });

  test('are not told of items that are taken by their kind', () => {
    expectUnused('item v : valve rule r "R" { at end require every valve closed } card c "C" { }');
  });

  test('are not told where an unknown name may have meant them', () => {
    expectUnused(`
      item drain-1, drain-2 : valve
      card c "C" { step set drain-3 open }`);
  });
});

test('a name too long for a slip of the pen is compared with none', () => {
  const long = 'a'.repeat(1_000_000);
  expect(nearest(`${long}b`, [long, 'a'])).toEqual([]);
  expect(nearest('lidd', ['lid', 'l', 'lid'.repeat(100)])).toEqual(['lid']);
  expect(nearest('belt', ['test', 'bolt'])).toEqual(['bolt']);
});
