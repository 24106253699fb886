/** Feeding and cutting off over a network of sources and links. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { nodesFed } from '../../../server/proof/meaning/supply.ts';
import type { Condition, Supply } from '../../../shared/card.ts';
import { card, kinds, proofOf } from './prove.ts';

const nodes = 5;
const answers = ['yes', 'no', 'unknown'] as const;
const parts = fc.record({
  sources: fc.array(fc.record({ node: fc.nat({ max: nodes - 1 }), answer: fc.constantFrom(...answers) }), {
    maxLength: 2,
  }),
  links: fc.array(
    fc.record({
      from: fc.nat({ max: nodes - 1 }),
      to: fc.nat({ max: nodes - 1 }),
      both: fc.boolean(),
      answer: fc.constantFrom(...answers),
    }),
    { maxLength: 6 },
  ),
});

/** The nodes that are reached over parts with these answers, by going on until nothing new is found. */
function reached({ sources, links }: typeof parts extends fc.Arbitrary<infer T> ? T : never, on: readonly string[]) {
  const fed = new Set(sources.filter(({ answer }) => on.includes(answer)).map(({ node }) => node));
  for (let round = 0; round <= nodes; round++) {
    for (const { from, to, both, answer } of links) {
      if (!on.includes(answer)) continue;
      if (fed.has(from)) fed.add(to);
      if (both && fed.has(to)) fed.add(from);
    }
  }
  return [...fed].sort();
}

test('what is surely fed, and what perhaps', () => {
  fc.assert(
    fc.property(parts, (network) => {
      const when = (answer: string) => ({ type: 'open', answer }) as unknown as Condition;
      const supply = {
        sources: network.sources.map(({ node, answer }) => ({ node, when: when(answer) })),
        links: network.links.map(({ answer, ...link }) => ({ ...link, when: when(answer) })),
      } as unknown as Supply;
      const fed = nodesFed(
        supply,
        (condition) => (condition as unknown as { answer: 'yes' | 'no' | 'unknown' }).answer,
      );
      expect([...fed.surely].sort()).toEqual(reached(network, ['yes']));
      expect([...fed.perhaps].sort()).toEqual(reached(network, ['yes', 'unknown']));
      expect(fed.open).toBeUndefined();
    }),
    { seed: 1, numRuns: 300 },
  );
});

test('what to look at to know more is the first that is open', () => {
  const split = (variable: number) => ({ variable, mask: 1 });
  const when = (variable: number) => ({ type: 'open', variable }) as unknown as Condition;
  const supply = {
    sources: [{ node: 0 }],
    links: [
      { from: 0, to: 1, both: false, when: when(3) },
      { from: 1, to: 2, both: false, when: when(4) },
    ],
  } as unknown as Supply;
  const fed = nodesFed(supply, (condition) => split((condition as unknown as { variable: number }).variable));
  expect(fed.open).toEqual(split(3));
  expect([...fed.surely]).toEqual([0]);
  expect([...fed.perhaps]).toEqual([0, 1, 2]);
});

const machine = [
  kinds,
  'item cart : starter "the cart" normally off',
  'item tie : breaker "the tie" normally closed',
  'item feed : breaker "the feed" normally pulled',
  'item spare : breaker "the spare feed" normally pulled',
  'item pump : starter "the pump" normally off needs power while cranking',
  'supply power "power" { source cart when cart cranking link cart -> right when feed closed link cart -> left when spare closed link right <-> left when tie closed link left -> pump }',
].join('\n');

const undo = 'set cart off set feed pulled set spare pulled set tie closed set pump off';

function notFed(body: string): string[] {
  const { proof, at } = proofOf([machine, card(`step { ${body} ${undo} }`)].join('\n'));
  return proof.notFed.map(
    ({ place, mend }) =>
      `${at(place)}: ${mend?.map(({ item, state }) => `${item.name} ${item.kind.states[state]?.name}`).join(', ') ?? 'no mend'}`,
  );
}

test.each([
  ['set feed closed set cart cranking set pump cranking', []],
  ['set spare closed set cart cranking set tie pulled set pump cranking', []],
  ['set cart cranking set pump cranking set pump off', ['set pump cranking: feed closed']],
  ['set tie pulled set cart cranking set pump cranking set pump off', ['set pump cranking: spare closed']],
  ['set pump cranking set pump off', ['set pump cranking: cart cranking, feed closed']],
  ['set feed closed set cart cranking set pump cranking set tie pulled set pump off', ['set tie pulled: spare closed']],
  ['set feed closed set spare closed set cart cranking set pump cranking set tie pulled', []],
] as const)('%s', (body, expected) => {
  expect(notFed(body).filter((told) => !told.startsWith('set cart off'))).toEqual(expected);
});

test('the way back over a link that goes both ways', () => {
  const rule = 'rule dead "Dead" { while tie pulled require not power reaches right }';
  const count = (body: string) =>
    proofOf([machine, rule, card(`step { ${body} ${undo} }`)].join('\n')).proof.rules.length;
  expect(count('set spare closed set cart cranking set tie pulled')).toBe(0);
  expect(count('set feed closed set cart cranking set tie pulled')).toBe(1);
  const live = 'rule live "Live" { before pump cranking require power reaches right }';
  const fed = (body: string) =>
    proofOf([machine, live, card(`step { ${body} ${undo} }`)].join('\n')).proof.rules.length;
  expect(fed('set spare closed set cart cranking set pump cranking')).toBe(0);
  expect(fed('set spare closed set cart cranking set tie pulled set pump cranking')).toBe(1);
});

test('a supply that another feeds', () => {
  const two = [
    kinds,
    'item cart : starter "the cart" normally off',
    'item valve-1 : valve "the valve" normally closed',
    'item pump : starter "the pump" normally off',
    'item lid : valve "the lid" normally closed',
    'supply power "power" { source cart when cart cranking link cart -> pump }',
    'supply water "water" { source pump when power reaches pump link pump -> hose when valve-1 open }',
    'rule wet "Wet" { before lid open require water reaches hose }',
  ].join('\n');
  const count = (body: string) =>
    proofOf([two, card(`step { ${body} set lid open set lid closed set cart off set valve-1 closed }`)].join('\n'))
      .proof.rules.length;
  expect(count('set cart cranking set valve-1 open')).toBe(0);
  expect(count('set valve-1 open')).toBe(1);
  expect(count('set cart cranking')).toBe(1);
});

test('what may or may not be closed does not surely feed', () => {
  const open = [
    kinds,
    'item cart : starter "the cart" normally off',
    'item tie : breaker "the tie"',
    'item pump : starter "the pump" normally off needs power while cranking',
    'supply power "power" { source cart when cart cranking link cart -> pump when tie closed }',
  ].join('\n');
  const told = (body: string) =>
    proofOf([open, card(`step { set cart cranking ${body} set pump cranking set pump off set cart off }`)].join('\n'))
      .proof.notFed.length;
  expect(told('')).toBe(1);
  expect(told('check tie closed')).toBe(0);
  expect(told('ensure tie closed')).toBe(0);
});

test('supplies that feed one another in a row, in whatever order they are declared', () => {
  const chain = [
    'supply power "power" { source cart when cart cranking link cart -> pump }',
    'supply water "water" { source pump when power reaches pump link pump -> mill }',
    'supply air "air" { source mill when water reaches mill link mill -> horn }',
  ];
  const count = (supplies: readonly string[], body: string) =>
    proofOf(
      [
        kinds,
        'item cart : starter "the cart" normally off',
        'item lid : valve "the lid" normally closed',
        ...supplies,
        'rule blown "Blown" { before lid open require air reaches horn }',
        card(`step { ${body} set lid open set lid closed set cart off }`),
      ].join('\n'),
    ).proof.rules.length;
  for (const supplies of [chain, [...chain].reverse()]) {
    expect(count(supplies, 'set cart cranking')).toBe(0);
    expect(count(supplies, 'wait 1 s')).toBe(1);
  }
});

test('a link that the supply itself closes', () => {
  const relay = [
    kinds,
    'item cart : starter "the cart" normally off',
    'item lid : valve "the lid" normally closed',
    'supply power "power" { source cart when cart cranking link cart -> coil link cart -> lid when power reaches coil }',
    'rule fed "Fed" { before lid open require power reaches lid }',
  ];
  const count = (body: string) =>
    proofOf([...relay, card(`step { ${body} set lid open set lid closed set cart off }`)].join('\n')).proof.rules
      .length;
  expect(count('set cart cranking')).toBe(0);
  expect(count('wait 1 s')).toBe(1);
});

test('of supplies that switch each other off and on nothing is known', () => {
  const restless = (other: string) => [
    kinds,
    'item cart : starter "the cart" normally off',
    'item pump : starter "the pump" normally off',
    'item lid : valve "the lid" normally closed',
    'supply power "power" { source cart when not water reaches pump and cart cranking link cart -> lid }',
    `supply water "water" { source pump when ${other} link pump -> lid }`,
    'rule fed "Fed" { before lid open require power reaches lid }',
    'rule cut "Cut" { before lid open require not power reaches lid }',
  ];
  const broken = (other: string, body: string) =>
    proofOf([...restless(other), card(`step { ${body} set lid open set lid closed set cart off }`)].join('\n'))
      .proof.rules.map(({ rule }) => rule.name)
      .sort();
  expect(broken('power reaches lid', 'set cart cranking')).toEqual(['cut', 'fed']);
  expect(broken('not power reaches lid', 'set cart cranking')).toEqual(['cut', 'fed']);
  expect(broken('power reaches lid', 'wait 1 s')).toEqual(['fed']);
  expect(broken('lid open', 'set cart cranking')).toEqual(['cut']);
});

test('a rule on a supply and an item is mended in both', () => {
  const rule = 'rule live "Live" { before pump cranking require power reaches right and tie pulled }';
  const { proof } = proofOf([machine, rule, card(`step { set cart cranking set pump cranking ${undo} }`)].join('\n'));
  expect(
    proof.rules.map(({ mend }) => mend?.map(({ item, state }) => `${item.name} ${item.kind.states[state]?.name}`)),
  ).toEqual([['feed closed', 'tie pulled']]);
});
