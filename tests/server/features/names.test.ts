import { describe, expect, it, vi } from 'vitest';
import * as binding from '../../../server/binding/bind.ts';
import type { Declared } from '../../../server/binding/references.ts';
import { callableAt, incoming, outgoing } from '../../../server/features/calls.ts';
import { followMoves } from '../../../server/features/file-renames.ts';
import { links } from '../../../server/features/links.ts';
import { nameAt, placesOf, rename, renameObstacle } from '../../../server/features/names.ts';
import { colouredNames } from '../../../server/features/semantic-colours.ts';
import { signatureAt } from '../../../server/features/signature.ts';
import { card, open, type Scene } from './support.ts';

function named({ snapshot, offset }: Scene) {
  return nameAt(snapshot.bound.references, snapshot.file, offset);
}

const everywhere = ({ snapshot, others }: Scene) => [snapshot, ...others];

const tables = (scene: Scene) => everywhere(scene).map(({ bound }) => bound.references);

const words = ({ snapshot, others }: Scene, place: { file: string; start: number; end: number }) => {
  const text = [snapshot, ...others].find(({ file }) => file === place.file)?.text ?? '';
  const line = text.slice(text.lastIndexOf('\n', place.start - 1) + 1).split('\n')[0] ?? '';
  return `${place.file} ${line.trim()}`;
};

describe('a name', () => {
  it('leads to its declaration and to every use, in all files', () => {
    const scene = open(card('step set main-$0switch on\nstep "Look at {main-switch}."'));
    const found = named(scene);
    expect(found && placesOf(found.declared, tables(scene)).map((place) => words(scene, place))).toEqual([
      '/plant.card item main-switch : switch "the main switch" at "panel P1" normally off',
      '/plant.card link grid -> feed-pump when main-switch on',
      '/here.card step set main-switch on',
      '/here.card step "Look at {main-switch}."',
    ]);
  });

  it('of a state belongs to its kind', () => {
    const found = named(open(card('step set feed-pump run$0ning')));
    expect(found?.declared).toMatchObject({ sort: 'state', name: 'running', owner: { name: 'pump' } });
  });

  it('is nothing in a text, a number or a word of the language', () => {
    expect(named(open(card('st$0ep "Look."')))).toBeUndefined();
    expect(named(open(card('step "Lo$0ok."')))).toBeUndefined();
  });
});

describe('renaming', () => {
  function renamed(marked: string, newName: string) {
    const scene = open(marked);
    const found = named(scene);
    if (!found) throw new Error('There is no name here.');
    const result = rename(found.declared, newName, everywhere(scene), scene.workspace);
    return 'refused' in result ? result.refused : result.edits.map(({ place }) => place.file);
  }

  it('changes every place', () => {
    expect(renamed(card('step set main-$0switch on'), 'big-switch')).toEqual([
      '/plant.card',
      '/plant.card',
      '/here.card',
    ]);
    expect(renamed(card('step aga$0in: "Look."\nstep { check main-switch on else go to again }'), 'look')).toHaveLength(
      2,
    );
    expect(renamed(card('step read oil in wor$0king'), 'usual')).toEqual(['/plant.card', '/plant.card', '/here.card']);
    expect(renamed(card('step by fit$0ter "Look."'), 'mechanic')).toEqual(['/here.card', '/here.card']);
  });

  it('is refused in words where the name cannot be', () => {
    const onItem = card('step set main-$0switch on');
    expect(renamed(onItem, 'two words')).toContain('is no name');
    expect(renamed(onItem, 'step')).toContain('word of the language');
    expect(renamed(onItem, 'oil')).toContain('already a gauge "oil"');
    expect(renamed(card('step set feed-pump run$0ning'), 'set')).not.toContain('refused');
  });

  it('is refused for what comes with Cardwright', () => {
    const found = named(open(card('step set main-switch o$0n')));
    expect(found && renameObstacle(found.declared)).toContain('comes with Cardwright');
  });
});

describe('renaming to a name that stands for something else somewhere', () => {
  const valves = `item v : valve "the first valve" normally open
item u : valve "the second valve" normally open
item q : valve "the third valve" normally open
gauge ga "gauge a" in bar { limit li at most 2 bar }
procedure p(w: valve, g: gauge) "P" {
  for each v in valve { step set w closed step set w open step "{v} {w}" }
  step set q closed step set q open step read ga in li step read g in li
}
card a "A" {
  do p(v, ga)
  for each it in valve { step set it closed step set q open step set it open step "Look at {q}." }
  for each tq in 1 bar, 2 bar { step read ga at most tq }
  step set u closed step set u open
}`;
  /** `marked` is the part of the text in which the cursor stands. */
  const renamed = (marked: string, newName: string) => {
    const scene = open(valves.replace(marked.replace('$0', ''), marked));
    const result = rename(named(scene)?.declared as Declared, newName, everywhere(scene), scene.workspace);
    return 'refused' in result ? result.refused : result.edits.length;
  };

  it.each([
    ['an item, to a parameter where it is set', 'item q$0', 'w', 'here.card:7'],
    ['an item, to a round in which it is set', 'item q$0', 'it', 'here.card:11'],
    ['a round, to an item that is set in it', 'for each it$0', 'q', 'here.card:11'],
    ['a round, to a parameter that is set in it', 'for each v$0', 'w', 'here.card:6'],
    ['a parameter, to a round in which it is set', '(w$0', 'v', 'here.card:6'],
    ['a parameter, to an item that is set beside it', '(w$0', 'q', 'here.card:7'],
    ['a value, to a gauge that is read for it', 'for each tq$0', 'ga', 'here.card:12'],
  ])('is refused for %s', (_, marked, newName, where) => {
    expect(renamed(marked, newName)).toContain(`At ${where}, ${newName} would stand for something else`);
  });

  it.each([
    ['an item that is not named where the name is taken', 'item u$0', 'w', 3],
    ['a round, as that of a loop beside it', 'for each it$0', 'tq', 3],
    ['a parameter, as a round elsewhere', '(w$0', 'it', 4],
  ])('is done for %s', (_, marked, newName, places) => {
    expect(renamed(marked, newName)).toBe(places);
  });

  it.each(['verify', 'level', 'min', 'psi', 'C'])('is refused for a value, to %s, which is none', (newName) => {
    expect(renamed('for each tq$0', newName)).toContain(`At here.card:12, ${newName} would be read as a word`);
    expect(renamed('for each it$0', newName)).toBe(3);
  });

  it('is refused across files', () => {
    const scene = open(
      `use "valves.card"\nprocedure p(z: valve) "P" { step set z closed step set v closed }\n${card('step set v$0 open')}`,
      { '/valves.card': 'item v : valve "the valve" normally open' },
    );
    const result = rename(named(scene)?.declared as Declared, 'z', everywhere(scene), scene.workspace);
    expect(result).toEqual({ refused: expect.stringContaining('At here.card:2, z would stand for something else') });
  });

  it('is refused where a round would go over a kind, in a file that does not name what is renamed', () => {
    const scene = open('kind pu$0mp { off, on }', {
      '/pumps.card':
        'use "here.card"\nitem feed : pump normally off\ncard c "C" { for each p in feed { step set p on } }',
    });
    const result = rename(named(scene)?.declared as Declared, 'feed', everywhere(scene), scene.workspace);
    expect(result).toHaveProperty('refused');
  });

  it('is done in a text with slips', () => {
    const text = `use "plant.card"\ncard c "C" { step set main-switsh on step set main-$0switch step read oil at most }`;
    const scene = open(text);
    const result = rename(named(scene)?.declared as Declared, 'big-switch', everywhere(scene), scene.workspace);
    expect(result).toHaveProperty('edits.length', 3);
  });

  it('binds only those files again that name what is renamed, and in which something is called so', () => {
    const files = {
      '/other.card': card('step set main-switch on for each one in main-switch { step "Look." }'),
      '/third.card': card('for each one in feed-pump { step set feed-pump running }'),
    };
    const scene = open(card('step set main-$0switch on'), files);
    tables(scene);
    const bind = vi.spyOn(binding, 'bind');
    rename(named(scene)?.declared as Declared, 'one', everywhere(scene), scene.workspace);
    expect(bind.mock.calls.map(([file]) => file)).toEqual(['/other.card']);
  });
});

describe('renaming what several cards name in one place', () => {
  const files = {
    '/shut.card': 'procedure shut() "Shut it" { step by ro "Shut." step by ro "Look." }',
    '/a.card': 'card a "A" { crew ro "Role" step by ro "Look." }',
    '/d.card': 'use "shut.card"\ncard d "D" { crew ro "Role" do shut }\ncard e "E" { crew ro "Role" do shut }',
    '/e.card': 'use "a.card"\nuse "shut.card"\ncard f "F" { crew ro "Role", other "Other" do a step by ro "Look." }',
  };
  const renamed = (marked: string, newName: string, others: Readonly<Record<string, string>> = files) => {
    const scene = open(marked, others);
    const result = rename(named(scene)?.declared as Declared, newName, everywhere(scene), scene.workspace);
    return 'refused' in result ? result.refused : result.edits.map(({ place }) => place.file).sort();
  };
  const byCard = 'use "a.card"\ncard b "B" { crew r$0o "Role" do a }';
  const byProcedure = 'use "shut.card"\ncard c "C" { crew r$0o "Role" do shut }';

  it('changes the role of each of them', () => {
    expect(renamed(byCard, 'mate')).toEqual(['/a.card', '/a.card', '/e.card', '/e.card', '/here.card']);
    expect(renamed(byProcedure, 'mate')).toEqual(['/d.card', '/d.card', '/here.card', '/shut.card', '/shut.card']);
    expect(renamed('card c "C" { crew r$0o "Role" step by ro "Look." }', 'mate')).toEqual(['/here.card', '/here.card']);
  });

  it('is refused where one of them has that name already', () => {
    expect(renamed(byCard, 'other')).toContain('already a role "other"');
  });

  const gauges = `gauge one in bar { limit wor$0king at least 1 bar }
gauge two in bar { limit working at least 2 bar }
procedure look(g: gauge) "Look" { step read g in working }`;

  it('changes the limit of each gauge that a procedure reads', () => {
    const cards = { '/c.card': 'use "here.card"\ncard c "C" { do look(one) }\ncard d "D" { do look(two) }' };
    expect(renamed(gauges, 'usual', cards)).toEqual(['/here.card', '/here.card', '/here.card']);
    expect(renamed(gauges, 'usual', {})).toEqual(['/here.card']);
  });

  it('is refused where one of them comes with Cardwright', () => {
    const taps = `kind tap { open$0, shut }\nitem t : tap normally open\nitem v : valve normally open
procedure shut(w: thing) "Shut" { step set w open }\ncard c "C" { do shut(t) do shut(v) }`;
    expect(renamed(taps, 'ajar', {})).toContain('comes with Cardwright');
  });
});

describe('the title of a stage that is gone to', () => {
  const stages = 'stage "Turn it off" { step "Look." }\nstage "End" { go to "Turn$0 it off" }';
  const renamed = (newName: string) => {
    const scene = open(`card c "C" {\n${stages}\n}`);
    const found = named(scene);
    return found && rename(found.declared, newName, everywhere(scene), scene.workspace);
  };

  it('is changed in both places, with its quotation marks', () => {
    for (const title of ['Stop it', '"Stop it"']) {
      const result = renamed(title);
      expect(result && 'edits' in result && result.edits.map(({ newText }) => newText)).toEqual([
        '"Stop it"',
        '"Stop it"',
      ]);
    }
  });

  it('has no quotation mark in it', () => expect(renamed('Stop "it" now')).toHaveProperty('refused'));
});

describe('who does whom', () => {
  const text = `procedure look() "Look" { step "Look." }
procedure tidy() "Tidy" { do look do look }
${card('do ti$0dy')}`;

  it('goes down and up', () => {
    const { snapshot, offset, others } = open(text);
    const tidy = callableAt(snapshot, offset, others);
    if (!tidy) throw new Error('There is no procedure here.');
    const calls = outgoing(tidy, snapshot, others);
    expect(calls.map(({ callable, places }) => [callable.title, places.length])).toEqual([['Look', 2]]);
    expect(incoming(tidy, [snapshot, ...others]).map(({ callable }) => callable.title)).toEqual(['Serve the pump']);
  });

  it('tells what a procedure must be given', () => {
    const { snapshot, offset } = open(
      `procedure start(which: pump, how: gauge) "Start" { step "Go." }\n${card('do start(feed-pump, $0')}`,
    );
    expect(signatureAt(snapshot, offset, snapshot.bound.procedures)).toMatchObject({
      name: 'start',
      title: 'Start',
      active: 1,
    });
    expect(signatureAt(snapshot, offset - 4, [])).toBeUndefined();
  });
});

describe('use lines', () => {
  const text = `use "std:kinds"\nuse "plant.card"\nuse "sub/other.card"\n`;

  it('are links', () => {
    const { snapshot } = open(text, { '/sub/other.card': '' });
    expect(links(snapshot).map(({ file }) => file)).toEqual(['std:kinds', '/plant.card', '/sub/other.card']);
  });

  it.each([
    ['a used file', [{ from: '/plant.card', to: '/old/plant.card' }], ['old/plant.card']],
    ['its folder', [{ from: '/sub', to: '/deep/er' }], ['deep/er/other.card']],
    ['the file itself', [{ from: '/here.card', to: '/sub/here.card' }], ['../plant.card', 'other.card']],
    ['nothing of it', [{ from: '/x.card', to: '/y.card' }], []],
  ])('follow when %s moves', (_, moves, expected) => {
    const { snapshot } = open(text, { '/sub/other.card': '' });
    expect(followMoves(snapshot, moves).map(({ newText }) => newText)).toEqual(expected);
  });
});

it('colours each name once, by what it stands for', () => {
  const { snapshot } = open(card('step again: set main-switch on'));
  const coloured = colouredNames(snapshot).map(
    ({ start, end, sort, isDeclaration }) =>
      `${snapshot.text.slice(start, end)} ${sort}${isDeclaration ? ' declared' : ''}`,
  );
  expect(coloured).toEqual([
    'serve card declared',
    'fitter role declared',
    'work label declared',
    'again label declared',
    'main-switch item',
    'on state',
  ]);
});
