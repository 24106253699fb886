/** On which checks it hangs that nothing more is found. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'item cap : valve "the cap"',
  'item drain : valve "the drain valve"',
  'item lid : valve "the lid" normally closed',
  'gauge oil "oil" in psi { reads 0 to 100 }',
].join('\n');

function reliedOn(rule: string, body: string): string[] {
  const { proof, at } = proofOf([machine, rule, card(body)].join('\n'));
  return [...proof.checksReliedOn].map(({ place }) => at(place));
}

const needs = (require: string) => `rule safe "Safe" { before lid open require ${require} }`;
const opens = 'step set lid open step set lid closed';

test('on one without which a rule would be broken, and on no other', () => {
  expect(reliedOn(needs('cap open'), `step check cap open ${opens}`)).toEqual(['cap open']);
  expect(reliedOn(needs('cap open'), `step check drain open ${opens}`)).toEqual([]);
  expect(reliedOn(needs('cap open'), `step check cap open step set cap open ${opens}`)).toEqual([]);
  expect(reliedOn(needs('cap open'), `step check cap closed ${opens}`)).toEqual([]);
});

test('on a reading', () => {
  expect(reliedOn(needs('oil above 50 psi'), `step read oil above 60 psi ${opens}`)).toEqual(['above 60 psi']);
  expect(reliedOn(needs('cap open'), `step read oil above 60 psi ${opens}`)).toEqual([]);
});

test('on what is awaited', () => {
  expect(reliedOn(needs('cap open'), `step wait until cap open ${opens}`)).toEqual(['cap open']);
  expect(reliedOn(needs('cap open'), `step wait until drain open ${opens}`)).toEqual([]);
});

test('on what is kept', () => {
  expect(reliedOn(needs('cap open'), `keep cap open else finish ${opens}`)).toEqual(['cap open']);
  expect(reliedOn(needs('cap open'), `keep drain open else finish ${opens}`)).toEqual([]);
});

test('not on what another branch than that past the check knows', () => {
  expect(reliedOn(needs('cap closed'), `step check cap open else { ${opens} }`)).toEqual([]);
  expect(reliedOn(needs('cap open'), `step check cap open else { step "Look." finish } ${opens}`)).toEqual([
    'cap open',
  ]);
});

test('an `if` is no check', () => {
  expect(reliedOn(needs('cap open'), `if cap open { ${opens} }`)).toEqual([]);
});
