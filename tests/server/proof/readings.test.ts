/** What a path knows of a gauge, and for how long. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const drain = 'item drain : valve "the drain valve" normally closed';
const lid = 'item lid : valve "the lid" normally closed';
const gauge = (extra = '') =>
  `gauge oil "oil pressure" in psi { reads 0 to 100 limit normal 20 psi to 80 psi limit cold by air { below 0 degC: at least 10 psi, at least 0 degC: at least 30 psi } ${extra} } gauge air "air" in degC`;
const undo = 'set drain closed';

/** The rules that are broken where the drain is opened after these actions. */
function broken(require: string, actions: string, { extra = '', after = '' } = {}): boolean {
  const rule = `rule oil-first "Oil first" { before drain open require ${require} }`;
  const { proof } = proofOf(
    [
      kinds,
      drain,
      lid,
      gauge(extra),
      rule,
      card(`step { ${actions} set drain open ${undo} set lid closed } ${after}`),
    ].join('\n'),
  );
  return proof.rules.length > 0;
}

test.each([
  ['oil at least 20 psi', 'read oil at least 20 psi', false],
  ['oil at least 20 psi', 'read oil above 20 psi', false],
  ['oil above 20 psi', 'read oil at least 20 psi', true],
  ['oil above 20 psi', 'read oil above 20 psi', false],
  ['oil at most 20 psi', 'read oil below 20 psi', false],
  ['oil below 20 psi', 'read oil at most 20 psi', true],
  ['oil at most 20 psi', 'read oil at most 21 psi', true],
  ['oil at least 20 psi', 'read oil at least 19 psi', true],
  ['oil in normal', 'read oil 30 psi to 40 psi', false],
  ['oil in normal', 'read oil 30 psi to 81 psi', true],
  ['oil in normal', 'read oil at least 20 psi', true],
  ['oil in normal', 'check oil at least 20 psi check oil at most 80 psi', false],
  ['oil in normal', 'check not (oil below 20 psi) check not (oil above 80 psi)', false],
  ['oil in normal', 'check oil at least 20 psi and oil at most 50 psi', false],
  ['oil in normal', 'check oil at least 20 psi or oil at most 50 psi', true],
  ['not oil in normal', 'read oil above 80 psi', false],
  ['not oil in normal', 'read oil at least 80 psi', true],
  ['oil exactly 30 psi', 'read oil exactly 30 psi', false],
  ['oil at least 137.895 kPa', 'read oil at least 20.1 psi', false],
  ['oil in normal', 'bring oil in normal within 5 s', false],
  ['oil in normal', '', true],
] as const)('%s, after %s', (require, actions, expected) => {
  expect(broken(require, actions)).toBe(expected);
});

test('a limit by another gauge holds in the row that is known', () => {
  expect(broken('oil in cold', 'read air below 0 degC read oil at least 10 psi')).toBe(false);
  expect(broken('oil in cold', 'read air at least 0 degC read oil at least 10 psi')).toBe(true);
  expect(broken('oil in cold', 'read air at least 5 degC read oil at least 30 psi')).toBe(false);
  expect(broken('oil in cold', 'read oil at least 30 psi read air below 0 degC')).toBe(false);
});

test.each([
  ['set lid open', true],
  ['run lid open for 1 s', true],
  ['wait 1 s', true],
  ['bring air above 0 degC within 1 s', true],
  ['bring oil at least 90 psi within 1 s', true],
  ['read air above 0 degC', false],
  ['check lid closed', false],
  ['record "It."', false],
] as const)('a reading passes with %s', (actions, expected) => {
  expect(broken('oil in normal', `read oil in normal ${actions}`)).toBe(expected);
});

test.each([
  ['set lid open', true],
  ['run lid open for 1 s', true],
  ['wait 1 s', false],
  ['bring air above 0 degC within 1 s', false],
  ['bring oil at least 90 psi within 1 s', true],
] as const)('a reading of what the lid moves passes with %s', (actions, expected) => {
  expect(broken('oil in normal', `read oil in normal ${actions}`, { extra: 'moved by lid' })).toBe(expected);
  expect(broken('oil in normal', `read oil in normal ${actions}`, { extra: 'moved by drain' })).toBe(
    actions.startsWith('bring oil'),
  );
});

const steps = (between: string, extra = '') => {
  const rule = 'rule oil-first "Oil first" { before drain open require oil in normal }';
  return (
    proofOf(
      [
        kinds,
        drain,
        lid,
        gauge(extra),
        rule,
        card(`step { read oil in normal } ${between} step { set drain open ${undo} }`),
      ].join('\n'),
    ).proof.rules.length > 0
  );
};

test('a reading passes with a step that takes time or has a text, and with a jump back', () => {
  expect(steps('')).toBe(false);
  expect(steps('step "Look."')).toBe(true);
  expect(steps('step takes 1 s { record "It." }')).toBe(true);
  expect(steps('step { record "It." }')).toBe(false);
  expect(steps('if "Go?" { step "Look." }')).toBe(true);
  expect(steps('step "Look."', 'moved by lid')).toBe(false);
});

test('a jump back forgets, a jump on does not', () => {
  const rule = 'rule oil-first "Oil first" { before drain open require oil in normal }';
  const text = (body: string) =>
    proofOf([kinds, drain, lid, gauge(), rule, card(body)].join('\n')).proof.rules.length > 0;
  expect(text(`step { read oil in normal } go to on step on: { set drain open ${undo} }`)).toBe(false);
  expect(
    text(
      `if "First?" { step { read oil in normal } } else { finish } step back: { set drain open ${undo} } if "Again?" { step { read oil in normal } go to back }`,
    ),
  ).toBe(true);
});

test('two bounds that cannot both be so never pass', () => {
  const never = (actions: string) =>
    proofOf([kinds, gauge(), card(`step { ${actions} }`)].join('\n')).proof.branches.map(
      ({ passes, fails }) => `${passes} ${fails}`,
    );
  expect(never('read oil above 40 psi read oil below 40 psi')).toEqual(['true true', 'false true']);
  expect(never('read oil at least 40 psi read oil at most 40 psi')).toEqual(['true true', 'true true']);
  expect(never('read oil above 40 psi read oil at least 40 psi')).toEqual(['true true', 'true false']);
  expect(never('read oil above 40 psi wait 1 s read oil below 40 psi')).toEqual(['true true', 'true true']);
});

test('a reading passes with a new round, as with a jump back, unless the gauge says what moves it', () => {
  const opens = 'step { set drain open set drain closed }';
  const toldAfter = (body: string) => {
    const rule = 'rule oil-first "Oil first" { before drain open require oil in normal }';
    const { proof } = proofOf([kinds, drain, gauge('moved by drain'), rule, card(body)].join('\n'));
    const free = proofOf([kinds, drain, gauge(), rule, card(body)].join('\n'));
    return { movedByIt: proof.rules.length, free: free.proof.rules.length };
  };
  const round = `if "Again?" { ${opens} } step read oil in normal`;
  expect(toldAfter(`step read oil in normal repeat 2 times { ${round} }`)).toEqual({ movedByIt: 0, free: 1 });
  expect(toldAfter(`repeat 2 times { step read oil in normal ${opens} }`)).toEqual({ movedByIt: 0, free: 0 });
});

test('while a trigger stays met, a reading that must not be so is not asked again, and what else breaks the rule is told', () => {
  const rule = 'rule low "Low" { while drain open require lid closed and not oil above 50 psi }';
  const told = (body: string) => {
    const { proof, at } = proofOf([kinds, drain, lid, gauge(), rule, card(body)].join('\n'));
    return proof.rules.map(({ place }) => at(place));
  };
  const low = 'read oil below 40 psi set drain open';
  expect(told(`step { ${low} wait 1 s ${undo} }`)).toEqual([]);
  expect(told(`step { ${low} set lid open ${undo} set lid closed }`)).toEqual(['set lid open']);
});

test('a check of a bound that nothing can meet may pass and fail: nothing follows from a slip', () => {
  const { proof } = proofOf([kinds, gauge(), card('step check oil 60 psi to 40 psi step "Look."')].join('\n'));
  expect(proof.branches.map(({ passes, fails }) => [passes, fails])).toEqual([[true, true]]);
  expect(proof.unreachable).toEqual([]);
});

test('what the until of a run has shown is lost where its own item, which goes back, moves the gauge', () => {
  const shown = 'run lid open until oil at least 20 psi within 1 min';
  expect(broken('oil at least 20 psi', shown)).toBe(false);
  expect(broken('oil at least 20 psi', shown, { extra: 'moved by drain' })).toBe(false);
  expect(broken('oil at least 20 psi', shown, { extra: 'moved by lid' })).toBe(true);
});
