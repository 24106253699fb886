/** Numbers that nobody means: each is told, and nothing is worked out with it, which would take for ever or leave the numbers. */
import { expect, test } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';
import { findingsOf } from '../../support/check.ts';

const card = (statement: string) =>
  `card c "C" { number "1" revision "A" crew fitter "Fitter" step "Look at the hose." ${statement} }`;

test.each([
  `repeat ${'9'.repeat(400)} times { step "Look at the seal." }`,
  `step wait 1${'0'.repeat(400)} s`,
  'step wait 878401 h',
  `step "Look at the seal." takes 0.${'0'.repeat(400)}1 s`,
])('%s', (statement) => {
  const api = openWorkspace({ readText: () => card(statement) });
  expect(api.check(['a.card']).findings.map(({ code }) => code)).toContain('syntax.number');
  expect(api.render('a.card')).toHaveLength(1);
});

test.each(['repeat 999999999999 times { step "Look at the seal." }', 'step wait 8760 h', 'step wait 0.000001 s'])(
  '%s can be meant',
  (statement) => {
    const api = openWorkspace({ readText: () => card(statement) });
    expect(api.check(['a.card']).findings.map(({ code }) => code)).not.toContain('syntax.number');
    expect(api.render('a.card')).toHaveLength(1);
  },
);

test.each([
  ['step wait 5 min to 3 min', '“5 min to 3 min”'],
  ['step takes 90 s to 1 min "Look at the seal."', '“1 min 30 s to 1 min”'],
  ['step run pump running for 5 min to 3 min', '“5 min to 3 min”'],
  ['for each soak in 2 min, 5 min { step wait soak to 3 min }', '“5 min to 3 min”'],
  ['for each soak in -1 min, 2 min { step wait soak }', '“soak”'],
  ['for each soak in 2 min, 900000 h { step wait soak }', '“soak”'],
])('%s is told as it is meant: %s', (statement, written) => {
  const text = `item pump : pump "the pump"\n${card(statement)}`;
  const found = findingsOf(text, { only: ['syntax.number'] });
  expect(found.map(({ message }) => message.split(' cannot')[0])).toEqual([written]);
});

test('loops in loops have more rounds than anybody goes through, and their time is left open', () => {
  const loop = (inner: string) => `repeat 500 times { ${inner} }`;
  const api = openWorkspace({ readText: () => card(loop(loop(loop('step takes 1 s "Look at the seal."')))) });
  expect(api.check(['a.card']).findings.filter(({ level }) => level === 'error')).toEqual([]);
  expect(api.render('a.card')).toHaveLength(1);
});
