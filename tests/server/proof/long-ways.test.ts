/** A way of many places keeps its beginning and its end. */
import { expect, test } from 'vitest';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, pathTold, proofOf } from './prove.ts';

const items = `item drain : valve "the drain" normally closed
item lid : valve "the lid" normally closed
rule shut "Shut" { before drain open require lid open and drain open }`;

/** The way to the last break, of a card that turns the drain so often and then opens it. */
function way(turns: number): string[] {
  const turned = numbers(turns).map((n) => `step set drain ${n % 2 ? 'open' : 'closed'}`);
  const { proof } = proofOf(
    [kinds, items, card([...turned, 'step set drain closed', 'step set drain open'].join('\n'))].join('\n'),
  );
  return pathTold(proof.rules.at(-1));
}

test('a way of 24 places is told whole', () => {
  const told = way(22);
  expect(told).toHaveLength(24);
  expect(told.slice(0, 3)).toEqual(['the lid is closed since the start', 'the drain: open', 'the drain: closed']);
});

test.each([23, 24, 60])('one of %d and more loses its middle', (turns) => {
  const told = way(turns);
  expect(told).toHaveLength(24);
  const ends = (n: number) => (n % 2 ? 'the drain: open' : 'the drain: closed');
  expect(told.slice(0, 4)).toEqual(['the lid is closed since the start', ends(1), ends(2), ends(3)]);
  expect(told.slice(4)).toEqual([...numbers(19).map((n) => ends(turns - 19 + n)), 'the drain: closed']);
});

test('thousands of breaks are each told from the start', () => {
  const turns = numbers(3000).map((n) => `step set drain ${n % 2 ? 'open' : 'closed'}`);
  const { proof } = proofOf([kinds, items, card(turns.join('\n'))].join('\n'));
  expect(proof.rules).toHaveLength(1500);
  expect(new Set(proof.rules.slice(20).map(({ path }) => path.length))).toEqual(new Set([24]));
});
