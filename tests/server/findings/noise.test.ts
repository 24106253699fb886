/** Too much noise as it is told, and what is offered against it where that is enough. */
import { expect, test } from 'vitest';
import { applyFix } from '../../support/apply.ts';
import { findingsOf } from '../../support/check.ts';

const text = (hazard: string, steps: string, level = 105) => `item mill  : motor "the mill" normally stopped
item muffs : worn "ear muffs" normally away reduces 25 dB
hazard milling "the noise of the mill" while mill running {
  level ${level} dBA
  warning "Noise can damage your hearing."${hazard}
}
card grind "Grind" {
  number "1" revision "A" crew miller "Miller"
  warning milling
${steps}
}
`;

/** The titles of the fixes after which no finding is left, and the texts that they leave. */
function mends(whole: string): readonly (readonly [title: string, after: string])[] {
  const [finding] = findingsOf(whole, { only: ['noise.dose'] });
  return (finding?.fixes ?? [])
    .map((fix) => [fix.title, applyFix(whole, fix)] as const)
    .filter(([, after]) => findingsOf(after).length === 0);
}

const run = '  step run mill running for 70 min';
const worn = `  step set muffs on\n${run}\n  step set muffs away`;
const named = '\n  protect muffs on';

test('protection that the noise names goes on before the noise and off after it', () => {
  expect(mends(text(named, run))).toEqual([
    ['Insert: step set muffs on, and later: step set muffs away', text(named, worn)],
  ]);
});

test('where the noise names none, what there is to wear is named and worn, or the run is shortened', () => {
  expect(mends(text('', run))).toEqual([
    ['Name ear muffs as protection. Insert: step set muffs on, and later: step set muffs away', text(named, worn)],
    ['Shorten this run to 1 h', text('', run.replace('70 min', '1 h'))],
  ]);
});

test('what is worn already is named only', () => {
  expect(mends(text('', worn))[0]).toEqual(['Name ear muffs as protection', text(named, worn)]);
});

test('a run from one time to another keeps its least where that is allowed', () => {
  expect(mends(text('', '  step run mill running for 40 min to 70 min')).at(-1)?.[1]).toContain('for 40 min to 1 h');
});

test('nothing is offered where protection is too weak and several runs would have to be shorter', () => {
  expect(mends(text(named, `${run}\n${run}`, 130))).toEqual([]);
});

/** The doses in percent that are told of a card with two things to wear, whose mill runs at 95 dBA, or behind its protection. */
function told(body: string, hazard = 'level 95 dBA'): number[] {
  const whole = `item mill  : motor "the mill" normally stopped
item muffs : worn "ear muffs" normally away reduces 27 dB
item plugs : worn "ear plugs" normally away reduces 17 dB
hazard milling "noise" while mill running { ${hazard} warning "Loud." protect muffs on or plugs on }
card grind "Grind" { number "1" revision "A" crew m "Miller", n "Mate", o "Other" warning milling ${body} }`;
  const findings = findingsOf(whole, { only: ['noise.dose'] });
  return findings.map(({ message }) => Number(/(\d+) %/.exec(message)?.[1]));
}

test('the protection that is on counts, not a better one that is not', () => {
  const run = 'step by m run mill running for 260 min';
  expect(told(`step by m set plugs on ${run} step by m set plugs away`, 'level 100 dBA')).toEqual([108, 108, 108]);
  expect(told(`step by m set muffs on ${run} step by m set muffs away`, 'level 100 dBA')).toEqual([]);
});

test('who has no lane hears the lanes; who has one hears what another lasts, and no more', () => {
  const beside = (m: string, n: string) => told(`together { by m { ${m} } by n { ${n} } } step by o "Look."`);
  expect(beside('step run mill running for 5 h', 'step wait 1 h')).toEqual([125, 125]);
  expect(beside('step wait 6 h', 'step run mill running for 1 h')).toEqual([]);
});
