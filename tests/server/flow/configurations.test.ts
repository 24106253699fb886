/** The sorts of machine on which a card reads differently. */
import { expect, test } from 'vitest';
import { buildFlow } from '../../../server/flow/build.ts';
import { configurations, machinesOf } from '../../../server/flow/configurations.ts';
import type { Step } from '../../../shared/card.ts';
import { cardOf, waysThrough } from './draw.ts';

const words = (body: string, fields = '') => configurations(cardOf(body, { fields })).map((one) => one.machines);

const values = (body: string, fields = '') =>
  configurations(cardOf(body, { fields })).map((one) => [...one.values].map(([name, value]) => `${name} ${value}`));

test('a card that restricts nothing is one', () => {
  expect(words('step "Look."')).toEqual(['']);
  expect(values('step "Look."')).toEqual([[]]);
});

test('values that nothing tells apart are one sort', () => {
  const body = 'step "Look." only unit 3 to 5, 7 step "Listen."';
  expect(words(body)).toEqual(['unit 1 to 2, 6, 8 to 9', 'unit 3 to 5, 7']);
  expect(values(body)).toEqual([['unit 1'], ['unit 3']]);
});

test('a card for some machines knows no others', () => {
  expect(words('step "Look." only unit 3 to 5', 'applies unit 4 to 6')).toEqual(['unit 4 to 5', 'unit 6']);
  expect(words('step "Look." only unit 3 to 5', 'applies unit 4')).toEqual(['']);
  expect(values('step "Look." only unit 3 to 5', 'applies unit 4')).toEqual([[]]);
  expect(words('step "Look." only fit old', 'applies unit 4')).toEqual(['fit old', 'fit new']);
});

test('two variants multiply where the card looks at both', () => {
  expect(words('step "Look." only unit 1 to 4 step "Listen." only fit old')).toEqual([
    'unit 1 to 4 and fit old',
    'unit 1 to 4 and fit new',
    'unit 5 to 9 and fit old',
    'unit 5 to 9 and fit new',
  ]);
});

test('a restriction by two variants at once makes two sorts, of which one needs no single word', () => {
  const sorts = configurations(cardOf('step "Look." only unit 1 to 4 and fit old'));
  expect(sorts.map((one) => one.machines)).toEqual(['unit 1 to 4 and fit old', '']);
  expect(sorts.map(({ values: [...all] }) => all)).toEqual([
    [
      ['unit', '1'],
      ['fit', 'old'],
    ],
    [
      ['unit', '1'],
      ['fit', 'new'],
    ],
  ]);
});

test.each([
  ['stage "A" only fit old { step "Look." }'],
  ['stage "A" { step "Look." only fit old }'],
  ['if "Dry?" { step "Look." only fit old }'],
  ['if "Dry?" { } else { step "Look." only fit old }'],
  ['repeat 2 times { step "Look." only fit old }'],
  ['together { by one { } by two { step "Look." only fit old } }'],
  ['for each v in drain, vent { step { set v open } step "Look." only fit old }'],
  ['choose { "Left" { } or "Right" { step "Look." only fit old } }'],
  ['warning heat only fit old'],
  ['do look()'],
])('a restriction is found wherever it stands: %s', (body) => {
  const before = 'procedure look() { step "Look." only fit old }';
  expect(configurations(cardOf(body, { before })).map((one) => one.machines)).toEqual(['fit old', 'fit new']);
});

const waysFor = (body: string) => {
  const card = cardOf(body);
  return configurations(card).map(({ includes }) => waysThrough(buildFlow(card, { includes })));
};

test('each sort has the steps, admonitions and stages that are for it', () => {
  expect(waysFor('step only fit old wait 1 s step only fit new, old wait 2 s')).toEqual([
    ['wait 1 s, wait 2 s, finish'],
    ['wait 2 s, finish'],
  ]);
  expect(
    waysFor('warning heat only fit new stage "A" only fit old { step wait 1 s } stage "B" { step wait 2 s }'),
  ).toEqual([['wait 1 s, wait 2 s, finish'], ['warning heat, wait 2 s, finish']]);
  expect(waysFor('stop "No." stage "Safe" when stopped only fit old { step wait 1 s }')).toEqual([
    ['stopping (the card stops), wait 1 s, stopped'],
    ['stopping (the card stops), stopped'],
  ]);
});

test('a step keeps its label where it is left out', () => {
  expect(waysFor('go to here step wait 1 s step here: only fit old wait 2 s step wait 3 s')).toEqual([
    ['(on to here), wait 2 s, wait 3 s, finish'],
    ['(on to here), wait 3 s, finish'],
  ]);
});

test('a card for one machine alone has what is for it, and nothing that is for others', () => {
  const waysOfOne = (only: string) => {
    const card = cardOf(`step only ${only} wait 1 s step wait 2 s`, { fields: 'applies unit 4' });
    return configurations(card).map(({ includes }) => waysThrough(buildFlow(card, { includes })));
  };
  expect(waysOfOne('unit 3 to 5')).toEqual([['wait 1 s, wait 2 s, finish']]);
  expect(waysOfOne('unit 5')).toEqual([['wait 2 s, finish']]);
});

test('of too many machines none has what is for others than the card', () => {
  const names = Array.from({ length: 13 }, (_, n) => `v${n}`);
  const restricted = cardOf(
    [...names.map((name) => `step "Look." only ${name} old`), 'step "Listen." only unit 5'].join('\n'),
    { before: names.map((name) => `variant ${name} old, new`).join('\n'), fields: 'applies unit 4' },
  );
  const last = restricted.body.at(-1) as Step;
  expect(configurations(restricted).filter(({ includes }) => includes(last.only))).toEqual([]);
});

test('of too many sorts of machine some are left out, and that is known', () => {
  const variants = (count: number) => Array.from({ length: count }, (_, n) => `v${n}`);
  const machines = (count: number) =>
    machinesOf(
      cardOf(
        variants(count)
          .map((name) => `step "Look." only ${name} old`)
          .join('\n'),
        {
          before: variants(count)
            .map((name) => `variant ${name} old, new`)
            .join('\n'),
        },
      ),
    );
  expect(machines(8)).toMatchObject({ sorts: { length: 256 }, areAll: true });
  expect(machines(9)).toMatchObject({ sorts: { length: 512 }, areAll: true });
  expect(machines(10)).toMatchObject({ sorts: { length: 512 }, areAll: false });
  expect(machines(64)).toMatchObject({ sorts: { length: 512 }, areAll: false });
});
