import { describe, expect, it } from 'vitest';
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

const tables = ({ snapshot, others }: Scene) => [snapshot, ...others].map(({ bound }) => bound.references);

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
    const result = rename(found.declared, newName, tables(scene));
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
    expect(found && renameObstacle(found)).toContain('comes with Cardwright');
  });
});

describe('the title of a stage that is gone to', () => {
  const stages = 'stage "Turn it off" { step "Look." }\nstage "End" { go to "Turn$0 it off" }';
  const renamed = (newName: string) => {
    const scene = open(`card c "C" {\n${stages}\n}`);
    const found = named(scene);
    return found && rename(found.declared, newName, tables(scene));
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
