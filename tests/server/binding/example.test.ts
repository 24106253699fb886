import { expect, test } from 'vitest';
import type { Step } from '../../../shared/card.ts';
import { boundWords } from '../../../shared/quantity.ts';
import { bindTexts } from './support.ts';
import { merganser, rinse } from './water-scooper.ts';

const bound = bindTexts({ 'merganser.card': merganser, 'rinse.card': rinse });
const [card] = bound.cards;

test('the two files of the example bind without a problem', () => {
  expect(bound.problems).toEqual([]);
  expect(bound.files).toEqual(['std:kinds', 'merganser.card', 'rinse.card']);
  expect(bindTexts({ 'merganser.card': merganser }).problems).toEqual([]);
});

test('the head of the card', () => {
  expect(card).toMatchObject({
    name: 'rinse-left',
    number: { text: 'MG-72-03' },
    revision: { text: 'B', date: '2026-10-02' },
    crew: [
      { name: 'cockpit', label: 'Cockpit' },
      { name: 'ground', label: 'Ground observer' },
    ],
  });
});

test('the equipment comes from the used file', () => {
  const { equipment } = bound;
  expect(equipment.items.map(({ id }) => id)).toEqual(equipment.items.map((_, index) => index));
  const starter = equipment.items.find(({ name }) => name === 'starter-1');
  expect(starter?.duties.map(({ type }) => type)).toEqual(['longest', 'times-then-rest']);
  expect(starter?.needs[0]?.supply.nodes[starter.needs[0].node]?.item).toBe(starter);
  const [pressure] = equipment.gauges.filter(({ name }) => name === 'wash-pressure');
  const bounds = pressure?.limits.flatMap(({ bound: limit }) => (limit ? [boundWords(limit)] : []));
  expect(bounds).toEqual(['40 to 60 psi']);
});

test('a jump and the stage that it leads to share one label', () => {
  const power = card?.body[1];
  const last = card?.body.at(-1);
  if (power?.type !== 'stage' || last?.type !== 'stage') throw new Error('two stages expected');
  const read = (power.body.at(-1) as Step).actions[0];
  if (read?.type !== 'read' || read.otherwise?.type !== 'go') throw new Error('a read with a way out expected');
  expect(read.otherwise.target).toBe(last.label);
});

test("a file's own kind stands before the shipped one", () => {
  const starter = bound.equipment.kinds.filter(({ name }) => name === 'starter');
  expect(starter.map(({ place }) => place.file)).toEqual(['merganser.card']);
  expect(bound.equipment.kinds.some(({ name, place }) => name === 'pump' && place.file === 'std:kinds')).toBe(true);
});
