/** Ways that come back: what they do not reach, what they count, and what one question asks twice. */
import { expect, test } from 'vitest';
import { Prover } from '../../../server/proof/prove.ts';
import type { Card } from '../../../shared/card.ts';
import { mainFile, openText } from '../../support/check.ts';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'item drain : valve "the drain valve" normally closed',
  'item lid : valve "the lid" normally closed',
  'item cap : valve "the cap"',
  'item lamp-1 : lamp "the lamp"',
].join('\n');

function broken(rule: string, body: string): string[] {
  const { proof, at } = proofOf([machine, rule, card(body)].join('\n'));
  return proof.rules.map((one) => `${one.rule.name} ${at(one.place)}`);
}

const never = 'rule never "Never" { before lid open require lid open }';
const opens = 'step { set lid open set lid closed }';

test('what lies behind a check that always leads back is not reached', () => {
  expect(broken(never, `step a: { wait 1 s check drain open else go to a } ${opens}`)).toEqual([]);
  expect(broken(never, `step a: { wait 1 s check cap open else go to a } ${opens}`)).toEqual(['never set lid open']);
  expect(broken(never, `step a: wait 1 s if drain open { ${opens} } else { go to a }`)).toEqual([]);
});

test('a lane that goes round for ever and does nothing does not keep the others from going on', () => {
  const lanes = (round: string) => `together { by one { step again: ${round} go to again } by two { ${opens} } }`;
  expect(broken(never, lanes('{}'))).toEqual(['never set lid open']);
  expect(broken(never, lanes('"Look."'))).toEqual(['never set lid open']);
});

test('what lies behind rounds that never end by themselves', () => {
  expect(broken(never, `repeat at most 3 times until drain open { step wait 1 s } else finish ${opens}`)).toEqual([]);
  expect(
    broken(
      never,
      `repeat at most 3 times until drain open { step wait 1 s } else go to b finish step b: wait 1 s ${opens}`,
    ),
  ).toEqual(['never set lid open']);
});

test('what the rounds of an outer loop look at is known through those of an inner one', () => {
  const both = 'rule both "Both" { before drain open require lid open and cap open }';
  const rounds = (inner: string) => `step { set lid open set cap open }
    step out: { set drain open set drain closed }
    step inner: {} if "Again?" { step { set cap closed ${inner} } go to inner }
    if "Back?" { go to out }`;
  expect(broken(both, rounds('set cap open'))).toEqual([]);
  expect(broken(both, rounds('set cap open set lid closed'))).toEqual(['both set drain open']);
});

test('a way that is only open in the second round', () => {
  const body = `repeat 2 times { if drain open { ${opens} } step set drain open } step set drain closed`;
  expect(broken(never, body)).toEqual(['never set lid open']);
  expect(broken(never, body.replace('repeat 2', 'repeat 1'))).toEqual([]);
});

test('rounds are counted where it matters how many there are', () => {
  const toggle = (times: number) =>
    `repeat ${times} times { if lid open { step set lid closed } else { step set lid open } }`;
  const end = 'rule shut "Shut" { at end require lid closed }';
  expect(broken(end, `${toggle(2)} step wait 1 s`)).toEqual([]);
  expect(broken(end, `${toggle(3)} step wait 1 s`)).toHaveLength(1);
  expect(broken(end, `repeat 2 times { ${toggle(3)} } step wait 1 s`)).toEqual([]);
  expect(broken(end, `${toggle(3)} ${toggle(1)} step wait 1 s`)).toEqual([]);
});

test('what is asked of two states of one item, and of two times, is kept apart', () => {
  const rules = [
    'rule open-long "Open" { before drain open require lid open for at least 60 s }',
    'rule shut-long "Shut" { before cap open require lid closed for at least 60 s }',
  ].join('\n');
  const text = (open: number, shut: number) =>
    `step { check cap closed set lid open wait ${open} s set drain open set drain closed set lid closed wait ${shut} s set cap open }`;
  expect(broken(rules, text(60, 60))).toEqual([]);
  expect(broken(rules, text(59, 60))).toEqual(['open-long set drain open']);
  expect(broken(rules, text(60, 59))).toEqual(['shut-long set cap open']);
  const both =
    'rule twice "Twice" { before drain open require lid open for at least 60 s and not lid closed for at least 1 s }';
  expect(broken(both, 'step { set lid open wait 60 s set drain open set drain closed set lid closed }')).toEqual([]);
});

test('a step that stands in several rounds is not reached once, and told once', () => {
  const { proof } = proofOf([machine, card('finish for each v in drain, lid { step set v open }')].join('\n'));
  expect(proof.unreachable).toHaveLength(1);
});

test('a step that is reached in one round is reached', () => {
  const { proof } = proofOf(
    [
      machine,
      card(
        'for each v in drain, lid { if v open { step "A." } step set v open } step { set drain closed set lid closed }',
      ),
    ].join('\n'),
  );
  expect(proof.unreachable).toHaveLength(1);
  const later = proofOf(
    [machine, card('step set lid open for each v in drain, lid { if v open { step "A." } } step set lid closed')].join(
      '\n',
    ),
  );
  expect(later.proof.unreachable).toEqual([]);
});

test('a proof gives way inside its questions', () => {
  const steps = numbers(500).map((n) => `step set drain ${n % 2 ? 'open' : 'closed'}`);
  const snapshot = openText([machine, card(steps.join('\n'))].join('\n')).workspace.snapshot(mainFile);
  const work = new Prover(snapshot?.bound.cards[0] as Card, { stateBound: 1000 }).prove();
  let parts = 1;
  let part = work.next();
  for (; !part.done; part = work.next()) parts++;
  expect(part.value.explored).toBeGreaterThan(1000);
  expect(part.value.explored / parts).toBeLessThan(64);
});

test('a loop of one round loses no reading, one of two does', () => {
  const gauge =
    'gauge oil "oil" in psi { reads 0 to 100 } rule known "Known" { before lid open require oil above 50 psi }';
  const read = (times: number) =>
    `step read oil above 50 psi repeat ${times} times { step wait 1 s } step set lid open`;
  expect(broken(gauge, read(1))).toEqual(broken(gauge, 'step read oil above 50 psi step wait 1 s step set lid open'));
});
