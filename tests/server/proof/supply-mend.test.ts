/** The nearest mend of a supply, also where it takes more changes than are tried one combination after the other. */
import { expect, test } from 'vitest';
import type { NotFed } from '../../../server/proof/questions/not-fed.ts';
import { card, kinds, proofOf } from './prove.ts';

const six = [1, 2, 3, 4, 5, 6];
const links = six.map((n) => `link n${n} -> n${n + 1} when b${n} closed`);
const row = links.join(' ');
const motor = 'kind motor { stopped, running } item pump : motor normally stopped needs dc while running';
const breakers = (start: string) => six.map((n) => `item b${n} : breaker "breaker ${n}" normally ${start}`).join(' ');
const proved = (equipment: string, body: string) => proofOf(`${kinds}${equipment}${card(body)}`).proof;

const mend = (changes: NotFed['mend']) =>
  changes?.map(({ item, state }) => `${item.name} ${item.kind.states[state]?.name}`);

test('a way over six links that are all open, in whatever order they are declared', () => {
  for (const declared of [row, [...links].reverse().join(' ')]) {
    const proof = proved(
      `${breakers('pulled')} ${motor}
       supply dc "28 V" { source n1 ${declared} link n7 -> pump }`,
      'step set pump running step set pump stopped',
    );
    expect(proof.notFed.map((fact) => mend(fact.mend))).toEqual([six.map((n) => `b${n} closed`)]);
  }
});

test('a way over six links that are used both ways, declared from its far end', () => {
  const declared = [...six].reverse().map((n) => `link n${n + 1} <-> n${n} when b${n} closed`);
  const proof = proved(
    `${breakers('pulled')} ${motor}
     supply dc "28 V" { source n1 ${declared.join(' ')} link n7 -> pump }`,
    'step set pump running step set pump stopped',
  );
  expect(proof.notFed.map((fact) => mend(fact.mend))).toEqual([six.map((n) => `b${n} closed`)]);
});

test('of two long ways the one with fewer changes, over a link that is used both ways', () => {
  const proof = proved(
    `${breakers('pulled')} ${motor}
     supply dc "28 V" { source n1 ${row} link pump <-> n7 link n4 <-> n7 when b5 closed and b6 closed }`,
    'step set b1 closed step set pump running step { set pump stopped, b1 pulled }',
  );
  expect(proof.notFed.map((fact) => mend(fact.mend))).toEqual([['b2 closed', 'b3 closed', 'b5 closed', 'b6 closed']]);
});

test('a node that six sources feed is cut off by six changes, and what feeds another is left alone', () => {
  const proof = proved(
    `${breakers('closed')} item cover : valve normally closed item spare : breaker normally closed
     supply dc "28 V" { ${six.map((n) => `source n${n} link n${n} -> bus when b${n} closed`).join(' ')}
       link n1 -> lamp when spare closed }
     rule dead "Dead" { before cover open require not dc reaches bus }`,
    'step set cover open step set cover closed',
  );
  expect(proof.rules.map((fact) => mend(fact.mend))).toEqual([six.map((n) => `b${n} pulled`)]);
});

test('of two long ways with as many changes, the one that can be set', () => {
  const proof = proved(
    `item lamp-1 : lamp "the lamp" ${breakers('pulled')} item cover : valve normally closed
     supply dc "28 V" { source n1 link n6 -> n7 when lamp-1 lit ${row} }
     rule live "Live" { before cover open require dc reaches n7 }`,
    'step set cover open step set cover closed',
  );
  expect(proof.rules.map((fact) => mend(fact.mend))).toEqual([six.map((n) => `b${n} closed`)]);
});
