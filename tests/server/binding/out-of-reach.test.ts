/** Numbers that nobody means: each is told, and nothing is worked out with it, which would take for ever or leave the numbers. */
import { expect, test } from 'vitest';
import { openWorkspace } from '../../../server/api.ts';

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

test('loops in loops have more rounds than anybody goes through, and their time is left open', () => {
  const loop = (inner: string) => `repeat 500 times { ${inner} }`;
  const api = openWorkspace({ readText: () => card(loop(loop(loop('step takes 1 s "Look at the seal."')))) });
  expect(api.check(['a.card']).findings.filter(({ level }) => level === 'error')).toEqual([]);
  expect(api.render('a.card')).toHaveLength(1);
});
