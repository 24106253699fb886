import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { all } from '../../grammar/navigate.ts';
import { parse } from '../../grammar/parse.ts';
import { merganser, rinse } from '../server/binding/water-scooper.ts';
import { openFiles } from '../support/check.ts';
import { cardsIn, faulty, folder, openSamples, textOf, told, worlds } from './support.ts';

const files = worlds.flatMap((world) => cardsIn(world).map((file) => `${folder}/${world}/${file}`));
const cards = files.flatMap((file) => openSamples().workspace.snapshot(file)?.bound.cards ?? []);

test.each(worlds)('%s is clean', (world) => {
  const { findings } = openSamples().check(cardsIn(world).map((file) => `${folder}/${world}/${file}`));
  expect(told(findings)).toEqual([]);
});

test('all that is to be clean is clean together, as `npm start` checks it', () => {
  const together = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && entry.name !== faulty)
    .flatMap(({ name }) => cardsIn(name).map((file) => `${folder}/${name}/${file}`));
  expect(told(openSamples().check(together).findings)).toEqual([]);
});

test('the example of the language has no error and no warning', () => {
  const { findings } = openFiles({ 'merganser.card': merganser, 'rinse.card': rinse }).check(['rinse.card']);
  expect(told(findings.filter(({ level }) => level !== 'hint'))).toEqual([]);
});

test.each(cards.map((card) => [card.name, card] as const))('%s has all that a reader asks of a head', (_, card) => {
  expect(card.number?.text).toMatch(/^[A-Z]+(-\d+)+$/);
  expect(card.revision?.date).toMatch(/^\d{4}-\d\d-\d\d$/);
  expect(card.purpose).toMatch(/\.$/);
  expect(card.tools.length).toBeGreaterThan(0);
  expect(card.references.length).toBeGreaterThan(0);
  for (const role of card.crew) expect(role.label).toMatch(/^[A-Z]/);
});

/** What a reader of the samples has seen, as the types of the tree say it. */
const taught = [
  ...[
    'together',
    'choose',
    'for-each',
    'keep',
    'procedure',
    'do',
    'repeat',
    'if',
    'sign',
    'figure',
    'go',
    'stop',
    'finish',
  ],
  ...['set', 'check', 'read', 'bring', 'run', 'wait', 'watch', 'record', 'which', 'variant', 'assume', 'leaves'],
];

test('together the samples show the constructs of the language', () => {
  const trees = files.map((file) => parse(textOf(file)).file);
  expect(taught.filter((type) => !trees.some((tree) => all(tree, type as 'step').length > 0))).toEqual([]);
});
