/** A condition as rows of which one must be so, and the fewest changes that make one so. */
import { expect, test } from 'vitest';
import { type Change, fewestChanges } from '../../../server/proof/meaning/supply.ts';
import { alternatives } from '../../../server/proof/meaning/triggers.ts';
import type { Condition, Item } from '../../../shared/card.ts';
import { mainFile, openText } from '../../support/check.ts';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, proofOf } from './prove.ts';

const valves = ['a', 'b', 'c', 'd'].map((name) => `item ${name} : valve normally closed`).join('\n');

function condition(text: string): Condition {
  const rule = `rule r "R" { before ${text} require a closed }`;
  const snapshot = openText([kinds, valves, rule, card('step "Look."')].join('\n')).workspace.snapshot(mainFile);
  return snapshot?.bound.cards.at(-1)?.equipment.rules[0]?.condition as Condition;
}

const rows = (text: string) =>
  alternatives(condition(text))?.map((row) =>
    row
      .map(({ term, holds }) =>
        term.type === 'state'
          ? `${holds ? '' : 'not '}${term.item.name} ${term.item.kind.states[term.state]?.name}`
          : '?',
      )
      .join(', '),
  );

test.each([
  ['a open', ['a open']],
  ['not a open', ['not a open']],
  ['a open or b open', ['a open', 'b open']],
  ['a open and b open', ['a open, b open']],
  ['not (a open and b open)', ['not a open', 'not b open']],
  ['not (a open or b open)', ['not a open, not b open']],
  [
    '(a open or b open) and (c open or d open)',
    ['a open, c open', 'a open, d open', 'b open, c open', 'b open, d open'],
  ],
  ['a open and b open or c open', ['a open, b open', 'c open']],
  ['not not a open', ['a open']],
])('%s', (text, expected) => {
  expect(rows(text)).toEqual(expected);
});

test('256 rows are the most', () => {
  const eight = numbers(8)
    .map(() => '(a open or b open)')
    .join(' and ');
  expect(rows(eight)).toHaveLength(256);
  expect(rows(`${eight} and c open`)?.map((row) => row.split(', ').length)).toEqual(numbers(256).map(() => 9));
  expect(rows(`${eight} and (c open or d open)`)).toBeUndefined();
  expect(rows(`a open or (${eight})`)).toBeUndefined();
});

test('a trigger of more rows is asked as a whole', () => {
  const nine = numbers(9)
    .map(() => '(a open or b open)')
    .join(' and ');
  const broken = (body: string) => {
    const rule = `rule r "R" { before ${nine} require c open }`;
    const { proof, at } = proofOf([kinds, valves, rule, card(body)].join('\n'));
    return proof.rules.map(({ place }) => at(place));
  };
  expect(broken('step { set a open set b open }')).toEqual(['set a open']);
  expect(broken('step { set c open set a open set b open }')).toEqual([]);
});

const items = numbers(60).map((id) => ({ id }) as Item);
const change = (item: number, state: number): Change => ({ item: items[item - 1] as Item, state });

test('the fewest changes, the first of as many, and never two of one item', () => {
  const all = [change(1, 0), change(1, 1), change(2, 0), change(3, 0), change(4, 0), change(5, 0)];
  const wanting = (...wanted: readonly number[]) =>
    fewestChanges(all, (changes) => wanted.every((item) => changes.some((one) => one.item.id === item)))?.map(
      ({ item, state }) => `${item.id} ${state}`,
    );
  expect(wanting()).toEqual(['1 0']);
  expect(wanting(3)).toEqual(['3 0']);
  expect(wanting(1, 2, 3, 4)).toEqual(['1 0', '2 0', '3 0', '4 0']);
  expect(wanting(1, 2, 3, 4, 5)).toBeUndefined();
  const seen: number[] = [];
  fewestChanges([change(1, 0), change(1, 1)], (changes) => {
    seen.push(changes.length);
    return false;
  });
  expect(seen).toEqual([1, 1]);
});

test('it gives up after 20,000 tries', () => {
  let tries = 0;
  const found = fewestChanges(
    items.map((_, index) => change(index + 1, 0)),
    () => {
      tries++;
      return false;
    },
  );
  expect([found, tries]).toEqual([undefined, 20_000]);
});
