/** Names across files. */
import { describe, expect, test } from 'vitest';
import { resolveUse } from '../../../server/binding/files.ts';
import { bindTexts, expectMarked, only } from './support.ts';

test.each([
  ['cards/rinse.card', 'machine.card', 'cards/machine.card'],
  ['cards/rinse.card', '../machine.card', 'machine.card'],
  ['/a/b/c.card', './d/../e.card', '/a/b/e.card'],
  ['c.card', '../e.card', '../e.card'],
  ['/c.card', '../e.card', '/e.card'],
  ['c:/work/c.card', '..\\e.card', 'c:/e.card'],
  ['file:///c%3A/work/c.card', '../e.card', 'file:///c%3A/e.card'],
  ['vscode-vfs://github/x/y/c.card', 'e.card', 'vscode-vfs://github/x/y/e.card'],
  ['/a/c.card', '/b/e.card', '/b/e.card'],
  ['/a/c.card', 'std:kinds', 'std:kinds'],
])('from %s, %s is %s', (from, target, path) => {
  expect(resolveUse(from, target)).toBe(path);
});

describe('use', () => {
  test('is relative to the using file, and reaches further', () => {
    const bound = expectMarked({
      'kinds/own.card': 'kind tap { shut, open }',
      'machine.card': 'use "kinds/own.card"   item v : tap',
      'cards/a.card': 'use "../machine.card"   card c "C" { step set v open }',
    });
    expect(bound.files).toEqual(['std:kinds', 'kinds/own.card', 'machine.card', 'cards/a.card']);
  });

  test('of a shipped rulebook is allowed and changes nothing', () => {
    expectMarked('use "std:kinds"   item v : valve normally open');
  });

  test('of a missing file is reported there, and what may come from it is not', () => {
    expectMarked(`
      use "machin.card"
      //  ^^^^^^^^^^^^^ missing-file
      card c "C" { step { set v open   read g in low }   do p(v)   warning h   go to nowhere }
      //                                                                             ^^^^^^^ unknown-name`);
  });

  test('of a rulebook that is not shipped', () => {
    const bound = expectMarked('use "std:kind"\n//  ^^^^^^^^^^ missing-file');
    expect(only(bound, 'missing-file').near).toEqual(['std:kinds']);
  });

  test('in a circle is reported at the `use` of the bound file', () => {
    const bound = expectMarked({
      'b.card': 'use "c.card"   item b : valve',
      'c.card': 'use "a.card"   item c : valve',
      'a.card':
        'use "b.card"\n//  ^^^^^^^^ use-cycle\nitem a : valve   rule r "R" { at end require b open and c open }',
    });
    expect(only(bound, 'use-cycle').through).toEqual(['b.card', 'c.card', 'a.card']);
  });

  test('in a circle that leaves the bound file out is reported where it closes, as that file says it', () => {
    const bound = expectMarked({
      'b.card': 'use "c.card"',
      'c.card': 'use "b.card"\n//  ^^^^^^^^ use-cycle',
      'a.card': 'use "b.card"',
    });
    expect(only(bound, 'use-cycle').through).toEqual(['b.card', 'c.card']);
  });

  test('of itself', () => {
    expectMarked('use "a.card"\n//  ^^^^^^^^ use-cycle');
  });

  test('of one file by two ways is no second declaration', () => {
    expectMarked({
      'base.card': 'item v : valve',
      'b.card': 'use "base.card"',
      'c.card': 'use "base.card"',
      'a.card': 'use "b.card"   use "c.card"   rule r "R" { at end require v closed }',
    });
  });
});

describe('the same name in two files', () => {
  test('is reported in the file that uses the other', () => {
    const bound = expectMarked({
      'b.card': 'item v : valve',
      'a.card': 'use "b.card"   item v : valve\n//                  ^ duplicate-name',
    });
    expect(only(bound, 'duplicate-name').first.file).toBe('b.card');
  });

  test('is reported at the `use` where the two know nothing of each other', () => {
    const bound = expectMarked({
      'b.card': 'item v : valve',
      'c.card': 'item v : valve',
      'a.card': 'use "b.card"   use "c.card"\n//                 ^^^^^^^^ duplicate-name',
    });
    expect(only(bound, 'duplicate-name').second.file).toBe('c.card');
  });
});

test('problems of a used file are said to be there', () => {
  const bound = expectMarked({
    'b.card': 'item v : valv\n//       ^^^^ unknown-name',
    'a.card': 'use "b.card"   card c "C" { step set v open }',
  });
  expect(bound.problems).toHaveLength(1);
});

test('a file that does not parse is bound as far as it goes', () => {
  const bound = bindTexts({ 'a.card': 'item v : valve item ( : \ncard c "C" { step set v open step set' });
  expect(bound.equipment.items.map(({ name }) => name)).toEqual(['v']);
  expect(bound.cards[0]?.body[0]).toMatchObject({ actions: [{ type: 'set' }] });
});
