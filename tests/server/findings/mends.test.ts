/** Where a fix writes its step, and by whom. */
import { describe, expect, test } from 'vitest';
import { applyFix } from '../../support/apply.ts';
import { findingsOf } from '../../support/check.ts';

const kinds = `
kind valve { closed "Close {}", open "Open {}" }
kind cart { stopped "Stop {}", running "Start {}" }
kind lamp seen { dark, lit }
item drain : valve "the drain" normally closed
item lid : valve "the lid" normally closed
item motor : cart "the motor" normally stopped
gauge oil "oil pressure" in psi { limit normal 20 psi to 80 psi }
`;

function text(body: string, equipment = '', crew = 'a "Ann"'): string {
  return `${kinds}${equipment}\ncard trial "Trial" {\n  number "1" revision "A" crew ${crew}\n${body}\n}`;
}

/** The lines that the first fix for a code adds. */
function added(code: string, whole: string): string[] {
  const [finding] = findingsOf(whole, { only: [code] });
  const [fix] = finding?.fixes ?? [];
  if (!fix) return [];
  const after = applyFix(whole, fix);
  expect(findingsOf(after, { only: [code] }).length).toBeLessThan(findingsOf(whole, { only: [code] }).length);
  const before = whole.split('\n');
  const isAdded = (line: string) => {
    const at = before.indexOf(line);
    if (at >= 0) before.splice(at, 1);
    return at < 0;
  };
  const lines = after.split('\n');
  return lines.flatMap((line, at) => (isAdded(line) ? [`${line.trim()} < ${lines[at + 1]?.trim()}`] : []));
}

test('what is unmet at a stop is brought about in a stage for stops', () => {
  const rule = 'rule shut "Shut" { at stop require drain closed }';
  const body = '  step set drain open\n  step read oil\n  step check oil in normal\n  step set drain closed';
  expect(added('safety.rule', text(body, rule))).toEqual([
    'stage "Make safe" when stopped { step set drain closed } < }',
  ]);
  const staged = `  stage "Do" {\n${body}\n  }\n  stage "Safe" when stopped {\n    step "Report it."\n  }`;
  expect(added('safety.rule', text(staged, rule))).toEqual(['step set drain closed < }']);
});

test('where the card stops because a thing is not as it should be, nobody is told to set it so', () => {
  const hazard = 'hazard steam "steam" while lid open { warning "Steam scalds." }';
  const stopsAt = (check: string) => `  warning steam\n  step set lid open\n  step ${check}\n  step set lid closed`;
  expect(added('safety.unsafe-stop', text(stopsAt('check lid closed'), hazard))).toEqual([]);
  expect(added('safety.unsafe-stop', text(stopsAt('check "Is it dry?"'), hazard))).toEqual([
    'stage "Make safe" when stopped { step set lid closed } < }',
  ]);
});

test('a hazard that a stop leaves is ended in the stage for stops that stands there', () => {
  const hazard = 'hazard noise "noise" while motor running { warning "Noise." }';
  const body = `  stage "Do" {
    warning noise
    step set motor running
    step check "Is it free of smoke?"
    step set motor stopped
  }
  stage "Safe" when stopped {
    step "Report it."
  }`;
  expect(added('safety.unsafe-stop', text(body, hazard))).toEqual(['step set motor stopped < }']);
});

test('what is unmet at the end is brought about behind the last statement, or before the finish', () => {
  const given = 'item cap : valve "the cap"\nrule shut "Shut" { at end require cap closed }';
  expect(added('safety.rule', text('  step "Look at the lid."', given))).toEqual(['step set cap closed < }']);
  expect(added('safety.rule', text('  step "Look at the lid."\n  finish', given))).toEqual([
    'step set cap closed < finish',
  ]);
});

test('a change is put back before every finish at which it is left', () => {
  const body = '  step set drain open\n  if "Is it wet?" {\n    finish\n  }\n  step "Look at the lid."';
  expect(added('safety.left-changed', text(body))).toEqual([
    'step set drain closed < finish',
    'step set drain closed < }',
  ]);
});

test('what leaves no room for a step before its finish has no fix', () => {
  const body = '  step set drain open\n  step check oil in normal else finish\n  step set drain closed';
  expect(added('safety.left-changed', text(body))).toEqual([]);
});

test('what was put back before the place is put back again behind it', () => {
  const rule = 'rule lid-first "Lid first" { before drain open require lid open }';
  const body = '  step set lid open\n  step set lid closed\n  step set drain open\n  step set drain closed';
  expect(added('safety.rule', text(body, rule))).toEqual([
    'step set lid open < step set drain open',
    'step set lid closed < }',
  ]);
});

test('of alternatives the one that takes the least is brought about', () => {
  const rule = 'rule any-of "Any" { before drain open require (lid open and motor running) or motor running }';
  const fixes = findingsOf(text('  step set drain open\n  step set drain closed', rule), { only: ['safety.rule'] })[0]
    ?.fixes;
  expect(fixes?.map(({ title }) => title)).toEqual([
    'Insert: step set motor running, and later: step set motor stopped',
  ]);
});

test('a time that may be too short is waited for', () => {
  const rule = 'rule cool "Cool" { before drain open require motor stopped for at least 45 min }';
  const body = '  step run motor running for 5 s\n  step set drain open\n  step set drain closed';
  expect(added('safety.rule', text(body, rule))).toEqual(['step wait 45 min < step set drain open']);
});

test('a reading that nobody knows is taken right before, in the step where that would end it', () => {
  const rule = 'rule pressed "Pressed" { before drain open require oil in normal and oil at least 30 psi }';
  const opened = (step: string) => added('safety.rule', text(`  ${step}\n  step set drain closed, lid closed`, rule));
  const reads = 'read oil in normal read oil at least 30 psi';
  const next = '< step set drain closed, lid closed';
  expect(opened('step set drain open')).toEqual([
    'step read oil in normal < step read oil at least 30 psi',
    'step read oil at least 30 psi < step set drain open',
  ]);
  expect(opened('step "Look." set drain open')).toEqual([`step "Look." { ${reads} set drain open } ${next}`]);
  expect(opened('step takes 5 s { set drain open }')).toEqual([`step takes 5 s { ${reads} set drain open } ${next}`]);
  expect(opened('step { set lid open set drain open }')).toEqual([
    `step { set lid open ${reads} set drain open } ${next}`,
  ]);
});

test('what a jump back leads to is mended in the step that it leads to', () => {
  const rule = 'rule pressed "Pressed" { before drain open require oil in normal }';
  const body = '  step again: { set drain open set drain closed }\n  if "Again?" { go to again }';
  expect(added('safety.rule', text(body, rule))).toEqual([
    'step again: { read oil in normal set drain open set drain closed } < if "Again?" { go to again }',
  ]);
  const starter =
    'kind starter { off, cranking }\nitem crank : starter "the crank" normally off { duty cranking at most 30 s, then rest 60 s }';
  const runs = '  step again: run crank cranking for 30 s\n  if "Again?" { go to again }';
  expect(added('duty.short-rest', text(runs, starter))).toEqual([
    'step again: { wait 1 min run crank cranking for 30 s } < if "Again?" { go to again }',
  ]);
});

test('a step is done by whoever does the step there, or the one before; a lane says it itself', () => {
  const two = 'a "Ann", b "Bea"';
  const rule = 'rule lid-first "Lid first" { before drain open require lid open }';
  const steps = '  step by b set drain open\n  step by a set drain closed';
  expect(added('safety.rule', text(steps, rule, two))[0]).toBe('step by b set lid open < step by b set drain open');
  const lanes =
    '  together {\n    by b {\n      step set drain open\n    }\n    by a {\n      step "Look."\n    }\n  }\n  step by a set drain closed';
  expect(added('safety.rule', text(lanes, rule, two))).toEqual([
    'step set lid open < step set drain open',
    'step by b set lid closed < }',
  ]);
  const done = 'card sub "Sub" { number "2" revision "A" crew a "Ann" assume drain open step set drain closed }';
  expect(added('safety.not-assumed', text('  step by b "Look."\n  do sub', done, two))).toEqual([
    'step by b set drain open < do sub',
  ]);
});

test('what is set back is set back by the one who set it', () => {
  const two = 'a "Ann", b "Bea"';
  const atStop = 'rule shut "Shut" { at stop require drain closed }';
  const body = (last: string) => `  step by b set drain open
  step by a check oil in normal
  step by ${last} set drain closed`;
  expect(added('safety.rule', text(body('b'), atStop, two))).toEqual([
    'stage "Make safe" when stopped { step by b set drain closed } < }',
  ]);
  const again = `${body('a')}\n  step by a set drain open\n  step by a set drain closed`;
  expect(added('safety.rule', text(again, atStop, two))).toEqual([
    'stage "Make safe" when stopped { step by a set drain closed } < }',
  ]);
  const before = 'rule dry "Dry" { before motor running require drain closed }';
  const opened = '  step by b set drain open\n  step by a run motor running for 5 s';
  expect(added('safety.rule', text(opened, before, two))).toEqual([
    'step by b set drain closed < step by a run motor running for 5 s',
  ]);
});

test('the warning for a hazard that begins twice is written at both, so that neither comes late', () => {
  const hazard = 'hazard noise "noise" while motor running { warning "Noise." }';
  const begun = '  step set motor running\n  step set motor stopped';
  const whole = text(`  repeat 2 times {\n${begun}\n${begun}\n  }`, hazard);
  const [, second] = findingsOf(whole, { only: ['safety'] });
  expect(second?.fixes.map(({ title }) => title)).toEqual(['Insert: warning noise, here and at 1 before']);
  expect(findingsOf(applyFix(whole, second?.fixes[0] as never), { only: ['safety'] })).toEqual([]);
});

test('a tolerance that is too wide becomes the range that is left', () => {
  const torque = 'gauge torque "torque" in N.m { limit tight exactly 25 N.m +/- 2 N.m }';
  const body = '  step read torque exactly 24 N.m +/- 2 N.m';
  expect(added('limit.looser', text(body, torque))).toEqual(['step read torque 23 to 26 N.m < }']);
});

test('the nearest mend for a supply that is still fed is told in the message', () => {
  const supply = `supply power "28 V" { source feed link feed -> bus when lid closed link feed -> bus when drain closed }
rule dead "Dead bus" { before motor running require not power reaches bus }`;
  const [finding] = findingsOf(
    text('  step set lid open\n  step run motor running for 5 s\n  step set lid closed', supply),
    { only: ['safety.rule'] },
  );
  expect(finding?.message).toContain('Nearest mend: bring the drain to open before this.');
});

test('what can only be seen is set: that is the one slip', () => {
  const lamp = 'item light : lamp "the light" normally dark';
  expect(
    findingsOf(text('  step set light lit', lamp), { only: ['safety', 'state'] }).map(({ code, message }) => [
      code,
      message.slice(0, 9),
    ]),
  ).toEqual([['state.seen', 'The light']]);
});

test('a step that isolates on purpose is not undone: what may still run is brought to rest before', () => {
  const given = `kind isolator { closed "Close {}", locked "Lock {} open" }
item cut : isolator "the pump isolator" normally closed
item pump-1 : cart "the pump" normally stopped needs mains while running
supply mains "mains" { source socket  link socket -> pump-1 when cut closed }`;
  const body = `  step set pump-1 running
  step set cut locked
  step set pump-1 stopped
  step set cut closed`;
  const [finding] = findingsOf(text(body, given), { only: ['supply.not-fed'] });
  expect(finding?.message).toContain('The pump may still be running here');
  expect(finding?.message).not.toContain('the pump isolator to closed');
  const [fix] = finding?.fixes ?? [];
  if (!fix) throw new Error('There is no fix.');
  expect(applyFix(text(body, given), fix)).toContain('  step set pump-1 stopped\n  step set cut locked');
});

test('a warning that comes late is moved', () => {
  const hazard = 'hazard noise "noise" while motor running { warning "Noise." }';
  const whole = text('  step set motor running\n  warning noise\n  step set motor stopped', hazard);
  const [finding] = findingsOf(whole, { only: ['safety.warning-late'] });
  const [fix] = finding?.fixes ?? [];
  if (!fix) throw new Error('There is no fix.');
  expect(fix.title).toBe('Move “warning noise” before this step');
  expect(applyFix(whole, fix)).toContain('  warning noise\n  step set motor running\n  step set motor stopped');
});

test('a hazard of several items is ended at a stop, what was changed last first', () => {
  const hazard = 'hazard spill "a spill" while drain open or motor running { warning "It spills." }';
  const body = `  warning spill
  step set drain open
  step set motor running
  step check "Is it dry?"
  step set motor stopped
  step set drain closed`;
  expect(added('safety.unsafe-stop', text(body, hazard))).toEqual([
    'stage "Make safe" when stopped { step set motor stopped, drain closed } < }',
  ]);
});

test('what is put back at the end is put back before the signature', () => {
  expect(added('safety.left-changed', text('  step set drain open\n  sign a "Done"'))).toEqual([
    'step set drain closed < sign a "Done"',
  ]);
});

test('a run without a known end gets the length that the duty allows', () => {
  const starter =
    'kind starter { off, cranking }\nitem crank : starter "the crank" normally off { duty cranking at most 30 s }';
  const body = '  step set crank cranking\n  step "Look at the propeller."\n  step set crank off';
  expect(findingsOf(text(body, starter), { only: ['duty.unbounded'] })[0]?.fixes?.map(({ title }) => title)).toEqual([
    'Change to: run crank cranking for 30 s',
  ]);
});

test('of a repeated run the first that is too many is told', () => {
  const starter =
    'kind starter { off, cranking }\nitem crank : starter "the crank" normally off { duty cranking at most 2 times, then rest 30 min }';
  const body = '  repeat 5 times {\n    step run crank cranking for 5 s\n    step wait 10 s\n  }';
  expect(findingsOf(text(body, starter), { only: ['duty.too-often'] })[0]?.message).toContain('the third run');
});

test('of a time that is sure in part only the rest is waited for', () => {
  const rule = 'rule cool "Cool" { before drain open require motor stopped for at least 1 min }';
  const body = '  step run motor running for 5 s\n  step wait 20 s\n  step set drain open\n  step set drain closed';
  expect(added('safety.rule', text(body, rule))).toEqual(['step wait 40 s < step set drain open']);
  expect(findingsOf(text(body, rule), { only: ['safety.rule'] })[0]?.message).toContain(
    'must have been stopped for at least 1 min; 20 s of it are sure, 40 s are missing',
  );
});

const fixesOf = (code: string, whole: string) =>
  findingsOf(whole, { only: [code] }).flatMap(({ fixes }) => fixes.map(({ title }) => title));

test('a run is not cut short behind which somebody reads what it is for', () => {
  const starter =
    'kind starter { off, cranking }\nitem crank : starter "the crank" normally off { duty cranking at most 30 s }';
  const body = '  step set crank cranking\n  step read oil in normal\n  step set crank off';
  expect(fixesOf('duty.unbounded', text(body, starter))).toEqual([]);
});

test('what was read and is otherwise is not read once more', () => {
  const rule = 'rule r "R" { before drain open require oil in normal }';
  const set = 'step set drain open\n  step set drain closed';
  expect(fixesOf('safety.rule', text(`  ${set}`, rule))).toEqual(['Insert: step read oil in normal']);
  const otherwise = `  if oil in normal { finish }\n  ${set}`;
  expect(fixesOf('safety.rule', text(otherwise, rule))).toEqual([]);
});

test('an else for what is left out tells all of it', () => {
  const body = '  if heat below 10 psi { step "A." } else if heat in work { step "B." }';
  const gauge = 'gauge heat "heat" in psi { reads 0 to 40 limit work 20 psi to 30 psi }';
  expect(fixesOf('flow.gap', text(body, gauge))).toEqual([
    'Insert: else { stop "Report that heat is at least 10 psi and below 20 psi, or above 30 psi and at most 40 psi." }',
  ]);
});

test('times are told as a reader counts them', () => {
  const told = (rule: string, body: string) =>
    findingsOf(
      `item lid, drain : valve normally closed rule r "R" { ${rule} } card a "A" { ${body} step { set lid closed set drain closed } }`,
      { only: ['safety.rule'] },
    ).map(({ message, fixes }) => [message.split(' is broken here: ')[1], ...fixes.map(({ title }) => title)]);
  expect(told('while lid open require lid open for at most 1 min', 'step { set lid open wait 2 min }')).toEqual([
    ['the lid may have been open for longer than 1 min.'],
  ]);
  const asked = 'step set lid open step "Look." if lid open for at most 4 min { step wait 5 min } step set drain open';
  expect(told('before drain open require lid open for at least 5 min', asked)).toEqual([
    [
      'the lid must have been open for at least 5 min; 4 min of it are sure, 1 min are missing.',
      'Insert: step wait 1 min',
    ],
  ]);
});

test('a card that says what it leaves is not told to say it', () => {
  const tap = 'kind tap { shut, open, locked } item tap : tap "the tap" normally shut';
  const told = (fields: string) =>
    findingsOf(text(`${fields} step set tap open`, tap), { only: ['safety.left-changed'] }).map(
      ({ message }) => message.split(' finishes. ')[1],
    );
  expect(told('')).toEqual(['Set tap shut before that, or say “leaves tap …” and why.']);
  expect(told('leaves tap locked')).toEqual(['Set tap locked before that.']);
});

test.each([
  ['only fit old', /: the stage “when stopped” is not for this machine\. .* This is so for fit new\.$/u],
  ['', /: the stage “when stopped” does not put an end to it on every path\. /u],
])('a hazard that a stop leaves on machines that have another stage for stops: %s', (only, told) => {
  const equipment = 'hazard noise "noise" while motor running { warning "Noise." } variant fit old, new';
  const stopped = (which: string, body: string) => `stage "Safe" when stopped ${which} { ${body} }`;
  const body = `stage "Do" {
    warning noise
    step set motor running
    step check "Is it quiet?"
    step set motor stopped
  }
  ${stopped(only, only ? 'step set motor stopped' : 'step "Report it."')}`;
  const found = findingsOf(text(body, equipment), { only: ['safety.unsafe-stop'] });
  expect(found.map(({ message }) => message)).toEqual([expect.stringMatching(told)]);
});

describe('the time of a step that begins a run', () => {
  const starter =
    'kind starter { off, cranking }\nitem crank : starter "the crank" normally off { duty cranking at most 5 min }\nitem spare : starter "the spare" normally off { duty cranking at most 5 min }\n';
  const told = (body: string, before = '') =>
    findingsOf(text(body, `${starter}${before}`), { only: ['duty.takes'] }).map(({ fixes }) =>
      fixes.map(({ title }) => title),
    );
  const begun = 'step takes 30 s set crank cranking';

  test('becomes that of the run where the item goes back right after', () => {
    const fix = 'Write “run crank cranking for 30 s”';
    expect(told(`${begun} step set crank off`)).toEqual([[fix]]);
    expect(told(`${begun} step takes 20 s "Let go." set crank off`)).toEqual([[fix]]);
    expect(added('duty.takes', text(`  ${begun}\n  step set crank off`, starter))).toEqual([
      'step run crank cranking for 30 s < step set crank off',
    ]);
  });

  test('cuts no run short', () => {
    expect(told(`${begun} step takes 1 min set crank off`)).toEqual([[]]);
    expect(told(`${begun} step "Look at it." set crank off`)).toEqual([[]]);
    expect(told(`step takes 30 s { set crank cranking wait 1 min set crank off }`)).toEqual([[]]);
    expect(told(begun)).toEqual([[]]);
  });

  test('is not told of a run that has a time of its own, nor where it is none', () => {
    expect(told(`${begun} step wait 3 min step takes 0 s set crank off`)).toEqual([]);
    expect(told('step takes 0 s set crank cranking step set crank off')).toEqual([]);
  });

  test('is told once in a procedure, by the name of the parameter', () => {
    const procedure = 'procedure pulse(x : starter) { step takes 30 s set x cranking step set x off }';
    expect(told('do pulse(crank) do pulse(spare)', procedure)).toEqual([
      ['Write “run x cranking for 30 s” (in every “do pulse”)'],
    ]);
  });
});
