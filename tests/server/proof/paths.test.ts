/** The path in a fact: the shortest that breaks it, in places with words. */
import { expect, test } from 'vitest';
import { ordinal } from '../../../server/findings/support/paths.ts';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, pathTold, proofOf } from './prove.ts';

const machine = [
  kinds,
  'item drain : valve "the drain valve" normally closed',
  'item lid : valve "the lid" normally closed',
  'item cap : valve "the cap"',
  'item lamp-1 : lamp "the lamp"',
  'gauge oil "oil pressure" in psi',
].join('\n');
const undo = 'step { set drain closed set lid closed }';

function paths(require: string, body: string, fields = '', trigger = 'before drain open'): string[][] {
  const { proof } = proofOf(`${machine}\nrule safe "Safe" { ${trigger} require ${require} }\n${card(body, fields)}`);
  return proof.rules.map(pathTold);
}

test('the shortest of several ways', () => {
  const wet = 'if "Wet?" { step wait 1 s step wait 2 s } else { step set lid open }';
  expect(paths('lid open', `${wet} step set drain open ${undo}`)).toEqual([
    ['the lid is closed since the start', '“Wet?”: yes'],
  ]);
  expect(paths('lid closed', `${wet} step set drain open ${undo}`)).toEqual([['“Wet?”: no', 'the lid: open']]);
});

test('what a run has moved is not said to be so since the start', () => {
  const lanes =
    'together { by one { step run cap open for 10 s } by two { step set drain open step set drain closed } }';
  expect(paths('cap closed', `step check cap closed ${lanes}`)).toEqual([['the cap: open']]);
});

test('the shortest of several ways to what is left changed', () => {
  const hatch = 'kind door { shut, ajar, wide } item hatch : door "the hatch" normally shut';
  const left = (body: string) =>
    proofOf(`${hatch} ${card(`${body} step set hatch wide`)}`).proof.leftChanged.map(pathTold);
  expect(left('if "Wet?" { step set hatch ajar }')).toEqual([['“Wet?”: no', 'the hatch: wide']]);
  expect(left('if "Dry?" { } else { step set hatch ajar }')).toEqual([['“Dry?”: yes', 'the hatch: wide']]);
});

test('the way to it and on from it are the shortest together', () => {
  const longer = 'if "Wet?" { step set cap open } else { step set cap open } if "Cold?" { step set cap open }';
  const back = 'if cap closed { step check "Is it so?" else { step set lid closed finish } }';
  const body = `if cap open { ${longer} } step set lid open ${back}`;
  expect(proofOf([machine, card(body)].join('\n')).proof.leftChanged.map(pathTold)).toEqual([
    ['the condition does not hold', 'the lid: open', 'the condition holds'],
  ]);
});

test('the nearest of several finishes at which it is left changed', () => {
  const body = 'step set lid open if "Early?" { finish } step "Look." if "Late?" { finish } step "Look again."';
  expect(proofOf([machine, card(body)].join('\n')).proof.leftChanged.map(pathTold)).toEqual([
    ['the lid: open', '“Early?”: yes'],
  ]);
});

test('what may be so since the start, unless the way touched it', () => {
  expect(paths('cap closed', `step set drain open ${undo}`)).toEqual([['the cap may be open since the start']]);
  expect(paths('cap closed', `step set cap open step set drain open ${undo}`)).toEqual([['the cap: open']]);
  expect(paths('cap closed', `step set drain open ${undo}`, 'assume cap open')).toEqual([
    ['the cap is open since the start'],
  ]);
  expect(paths('lamp-1 lit', `step set drain open ${undo}`)).toEqual([[]]);
});

test('what the step itself brings about was not so before', () => {
  expect(paths('lid closed', 'step set lid open step set lid closed', '', 'while cap open')).toEqual([[]]);
});

test('only the items that the question is about are told', () => {
  expect(paths('lid closed', `step set cap open step set lid open step set drain open ${undo}`)).toEqual([
    ['the lid: open'],
  ]);
});

test.each(['while', 'before'])('what is set has not moved by itself, with %s', (trigger) => {
  const trip = 'kind breaker { closed, pulled } item trip : breaker "the trip" normally closed may pulled';
  const drain = 'kind valve { closed, open } item drain : valve normally closed';
  const rule = `rule shut "Shut" { ${trigger} drain open require trip closed }`;
  const body = 'step { check trip closed set trip pulled set drain open set drain closed }';
  const { proof } = proofOf(`${trip} ${drain} ${rule} ${card(body)}`);
  expect(proof.rules.map(pathTold)).toEqual([['the trip: pulled']]);
});

test('a run goes back', () => {
  expect(paths('lid closed', `step set lid open step run lid closed for 1 s step set drain open ${undo}`)).toEqual([
    ['the lid: open', 'the lid: closed', 'the lid goes back'],
  ]);
});

test('what fails is told in words', () => {
  const body = (check: string) =>
    `step ${check} else go to out step set lid open finish stage out "Out" { step set drain open ${undo} }`;
  expect(paths('lid open', body('check cap closed'))).toEqual([
    ['the lid is closed since the start', 'the check fails'],
  ]);
  expect(paths('lid open', body('read oil above 3 psi'))).toEqual([
    ['the lid is closed since the start', 'the reading fails'],
  ]);
  expect(paths('lid open', body('bring oil above 3 psi within 1 s'))).toEqual([
    ['the lid is closed since the start', 'it cannot be brought there'],
  ]);
  expect(paths('lid open', body('wait until oil above 3 psi within 1 s'))).toEqual([
    ['the lid is closed since the start', 'the wait is in vain'],
  ]);
});

test('rounds by their numbers where they are counted for the question', () => {
  const rounds = 'repeat 3 times { if "Wet?" { step set lid open } step wait 1 s }';
  expect(paths('lid closed', `${rounds} step set drain open ${undo}`)).toEqual([
    ['“Wet?”: yes', 'the lid: open', 'second time round', '“Wet?”: no', 'third time round', '“Wet?”: no'],
  ]);
});

test('a stop', () => {
  expect(paths('lid closed', 'step set lid open step check "Well?" step set lid closed', '', 'at stop')).toEqual([
    ['the lid: open', '“Well?”: no', 'the card stops'],
  ]);
});

test('a long way loses its middle', () => {
  const steps = numbers(30).map((n) => `if "Q${n}?" { step set lid open step set lid closed }`);
  const [path = []] = paths('lid open', `${steps.join('\n')} step set drain open ${undo}`);
  expect(path.length).toBeLessThanOrEqual(24);
});

test.each([
  [1, 'first'],
  [10, 'tenth'],
  [11, '11th'],
  [12, '12th'],
  [21, '21st'],
  [22, '22nd'],
  [23, '23rd'],
  [24, '24th'],
  [112, '112th'],
])('the %i. is the %s', (number, word) => {
  expect(ordinal(number)).toBe(word);
});

test('what was sure at the start and has gone by itself is not said to be so since the start', () => {
  const valve = 'item vent : valve "the vent" normally closed may open';
  const rule = 'rule shut "Shut" { at end require vent closed }';
  const told = (body: string) => proofOf([kinds, valve, rule, card(body)].join('\n')).proof.rules.map(pathTold);
  expect(told('step takes 1 min "Look."')).toEqual([['the vent may go to open by itself here']]);
  expect(told('step set vent closed')).toEqual([['the vent: closed', 'the vent may go to open by itself here']]);
});
