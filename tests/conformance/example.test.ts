/** The example of the brief is clean, and each slip in it gives just the findings that follow from it. */
import { describe, expect, test } from 'vitest';
import { merganser, rinse } from '../server/binding/water-scooper.ts';
import { findingsOf } from '../support/check.ts';

function problemsOf(card: string, equipment = merganser): string[] {
  const findings = findingsOf(card, { files: { 'merganser.card': equipment } });
  return findings.filter(({ level }) => level !== 'hint').map(({ code }) => code);
}

/** Takes a stretch of the card out, or puts another in its place. */
function changed(from: string, to = ''): string {
  expect(rinse.split(from)).toHaveLength(2);
  return rinse.replace(from, to);
}

test('is clean', () => {
  expect(problemsOf(rinse)).toEqual([]);
});

describe('a slip', () => {
  test.each([
    ['breakers left closed', 'step by cockpit  set ignition-breakers pulled', '', ['safety.rule']],
    ['a lever not looked at', 'step by cockpit  set fuel-lever-1 cutoff', '', ['safety.rule']],
    ['a test not done', 'step by cockpit  set fire-detection passed', '', ['safety.rule']],
    ['a warning forgotten', 'warning noise', '', ['safety.warning-missing']],
    ['a warning too low', 'danger turning', 'warning turning', ['safety.warning-missing']],
    ['ears unprotected', 'step by ground   set ear-defenders on', '', ['safety.unprotected']],
    ['a plug forgotten', 'step by ground   set ground-power connected', '', ['supply.not-fed']],
    ['a contactor in its normal state', 'step by cockpit  set bus-tie closed', '', []],
    ['a rest a second short', 'wait 60 s', 'wait 59 s', ['duty.short-rest']],
    ['a run as long as allowed', 'for 25 s', 'for 30 s', []],
    ['a run a second long', 'for 25 s', 'for 31 s', ['duty.too-long']],
    ['as many runs as allowed', 'repeat 2 times', 'repeat 3 times', []],
    ['a run too many', 'repeat 2 times', 'repeat 4 times', ['duty.too-often']],
    ['a valve left open', 'step by ground   set wash-valve-1 closed', '', ['safety.left-changed']],
    ['breakers left pulled', 'step by cockpit  set ignition-breakers closed', '', ['safety.left-changed']],
    ['chocks left away', 'set wheel-chocks fitted', 'set wheel-chocks away', ['safety.left-changed']],
    ['a limit a little lower', 'at least 12 %', 'at least 11 %', ['limit.looser']],
    ['a range a little wider', 'in spray', '40 psi to 62 psi', ['limit.looser']],
    ['a unit of something else', 'in spray', '40 V to 60 V', ['unit.mismatch']],
    ['a step by nobody', 'step by ground   set wheel-chocks', 'step set wheel-chocks', ['crew.missing']],
    ['a role misspelt', 'step by ground   set wheel-chocks', 'step by grund set wheel-chocks', ['crew.unknown']],
    ['a label misspelt', 'go to no-power', 'go to no-powr', ['name.unknown']],
    ['a hazard misspelt', 'warning noise', 'warning nosie', ['name.unknown']],
    ['an item misspelt', 'set fire-detection', 'set fire-detektion', ['name.unknown']],
    ['a state misspelt', 'ignition-breakers pulled', 'ignition-breakers puled', ['name.unknown']],
    ['a file misspelt', 'use "merganser.card"', 'use "mergansr.card"', ['name.unknown']],
    ['a number left out', 'number   "MG-72-03"', '', ['card.missing-field']],
    ['a brace left out', 'stage "Rinse" {', 'stage "Rinse"', ['syntax.missing']],
    ['a way that leads back', 'else go to no-power', 'else go to no-power\n  go to no-power', ['flow.unreachable']],
  ])('%s', (_, from, to, codes) => {
    expect(problemsOf(changed(from, to))).toEqual(codes);
  });

  test('no stage for stops: the noise goes on at each stop, and is told once', () => {
    const stage = rinse.slice(rinse.indexOf('  stage "Make safe"'), rinse.indexOf('  stage no-power'));
    expect(problemsOf(changed(stage))).toEqual(['safety.unsafe-stop']);
  });

  test('a warning that comes late', () => {
    const late = changed('    danger turning\n').replace(
      'wait 60 s }\n    }',
      'wait 60 s }\n    }\n    danger turning',
    );
    expect(problemsOf(late)).toEqual(['safety.warning-late']);
  });

  test('protection taken off too early', () => {
    const early = changed('    step by ground   set ear-defenders away\n').replace(
      'step by ground   { set power-cart',
      'step by ground set ear-defenders away step by ground   { set power-cart',
    );
    expect(problemsOf(early)).toEqual(['safety.unprotected']);
  });
});

describe('a slip in the equipment', () => {
  test.each([
    ['a link left out', 'link right-bus <-> left-bus  when bus-tie closed', '', ['name.unknown']],
    ['a kind misspelt', ': valve   "the left', ': valf   "the left', ['name.unknown']],
    ['a limit upside down', '40 psi to 60 psi', '60 psi to 40 psi', ['limit.empty']],
    ['a limit off the scale', 'reads 0 to 100 by 2', 'reads 0 to 50 by 2', ['limit.off-scale']],
    ['a limit between marks', '27 V to 29 V', '27.2 V to 29 V', ['limit.between-marks']],
    ['a kind declared twice', 'kind valve ', 'kind valve { shut, open }\nkind valve ', ['name.duplicate']],
    ['a level without its unit', 'level 98 dBA', 'level 98', [expect.stringMatching(/^(syntax|unit)\./)]],
    ['a rule without what it requires', 'require fire-detection passed', '', ['syntax.missing']],
  ])('%s', (_, from, to, codes) => {
    expect(merganser.split(from)).toHaveLength(2);
    expect(problemsOf(rinse, merganser.replace(from, to))).toEqual(codes);
  });
});
