/** How long each thing takes in the worst case: runs, rests, starts, and how long something has been so. */
import { describe, expect, test } from 'vitest';
import { codesOf, expectMarked, findingsIn, messageOf } from './support.ts';

const starter = (duty: string) => ({ given: `item starter-1 : starter "the starter" normally off {\n${duty}\n}` });
const longest = starter('duty cranking at most 30 s, then rest 60 s');

describe('the length of a run', () => {
  test('is that of its “for”', () => {
    expectMarked('  step run starter-1 cranking for 30 s', longest);
    expectMarked('  step run starter-1 cranking for 31 s\n  //   ^ duty.too-long', longest);
  });

  test('is the longest that its times can be, exactly', () => {
    expectMarked('  step run starter-1 cranking for 10 s to 30 s', longest);
    expectMarked('  step run starter-1 cranking for 10 s to 30.1 s\n  //   ^ duty.too-long', longest);
    const tenths = Array.from({ length: 300 }, () => 'wait 0.1 s').join(' ');
    expectMarked(`  step { set starter-1 cranking ${tenths} set starter-1 off }`, longest);
  });

  test('is its limit where it goes on until something', () => {
    expectMarked('  step run starter-1 cranking until pressure in normal within 30 s', longest);
    expectMarked('  step run starter-1 cranking until pressure in normal within 31 s\n  //   ^ duty.too-long', longest);
  });

  test('counts from step to step; the time of a step passes before its actions', () => {
    expectMarked(
      '  step set starter-1 cranking\n  step takes 10 s check drain closed\n  step takes 20 s set starter-1 off',
      longest,
    );
    expectMarked(
      '  step set starter-1 cranking\n  //   ^ duty.too-long\n  step takes 10 s check drain closed\n  step takes 21 s set starter-1 off',
      longest,
    );
  });

  test('is unbounded over a step without a time', () => {
    expectMarked(
      '  step set starter-1 cranking\n  //   ^ duty.unbounded\n  step "Look."\n  step set starter-1 off',
      longest,
    );
  });

  test('is unbounded where a time is only known from below', () => {
    expectMarked('  step run starter-1 cranking for at least 5 s\n  //   ^ duty.unbounded', longest);
    expectMarked(
      '  step { set starter-1 cranking wait at least 5 s set starter-1 off }\n  //     ^ duty.unbounded',
      longest,
    );
  });

  test('has nothing added by a step that waits, runs or brings within a time', () => {
    expectMarked('  step { set starter-1 cranking wait 30 s set starter-1 off }', longest);
    expectMarked(
      '  step set starter-1 cranking\n  step bring pressure in normal within 30 s else go to off\n  step off: { wait 0 s set starter-1 off }',
      longest,
    );
  });

  test('has no end where the card ends in it', () => {
    expectMarked(
      '  step set starter-1 cranking\n  //   ^ duty.unbounded, safety.left-changed\n  step { wait 5 s }',
      longest,
    );
    expectMarked(
      `
  step set starter-1 cranking
  //   ^ duty.unbounded
  step { wait 5 s check "Does it turn?" }
  step { wait 5 s set starter-1 off }`,
      longest,
    );
  });

  test('ends with a watch that fails', () => {
    expectMarked(
      `
  step run starter-1 cranking for 30 s { watch pressure reaches at least 20 psi within 10 s else go to on }
  finish
  step on: wait 59 s
  step run starter-1 cranking for 5 s
  //   ^ duty.short-rest`,
      longest,
    );
  });
});

describe('the rest', () => {
  test('is the shortest that its times can be', () => {
    const twice = (between: string) => `run starter-1 cranking for 5 s ${between} run starter-1 cranking for 5 s`;
    const codes = (between: string) => codesOf(`step { ${twice(between)} }`, longest);
    expect(codes('wait 60 s')).toEqual([]);
    expect(codes('wait 59.9 s')).toEqual(['duty.short-rest']);
    expect(codes('wait 60 s to 2 min')).toEqual([]);
    expect(codes('wait 59 s to 2 min')).toEqual(['duty.short-rest']);
    expect(codes('wait at least 60 s')).toEqual([]);
    expect(codes('wait 30 s wait 30 s')).toEqual([]);
  });

  test('of what has no time is none', () => {
    expectMarked(
      '  step run starter-1 cranking for 5 s\n  step "Look around."\n  step run starter-1 cranking for 5 s\n  //   ^ duty.short-rest',
      longest,
    );
  });

  test('is asked in a loop too', () => {
    const loop = (rest: string) => `repeat 3 times { step { run starter-1 cranking for 5 s wait ${rest} } }`;
    expect(codesOf(loop('60 s'), longest)).toEqual([]);
    expect(codesOf(loop('59 s'), longest)).toEqual(['duty.short-rest']);
  });

  test('goes on while another lane works: lanes have one clock', () => {
    const fields = 'number "1" revision "A" crew a "A", b "B"';
    const lanes = (other: string) => `together {
  by a { step run starter-1 cranking for 5 s }
  by b { step wait ${other} }
}
step by a run starter-1 cranking for 5 s`;
    expect(codesOf(lanes('65 s'), { ...longest, fields })).toEqual([]);
    expect(codesOf(lanes('64 s'), { ...longest, fields })).toEqual(['duty.short-rest']);
  });

  test('is not missed before the first run: a card starts rested', () => {
    expectMarked('  step run starter-1 cranking for 5 s', longest);
  });

  test('is told with the worst figure, the limit and what is missing', () => {
    const message = messageOf(
      'step { run starter-1 cranking for 5 s wait 45 s run starter-1 cranking for 5 s }',
      longest,
    );
    for (const figure of ['45 s', '60 s', '15 s'])
      expect(message).toMatch(new RegExp(figure.replace('60 s', '(60 s|1 min)')));
  });
});

describe('the number of runs', () => {
  const run = 'run starter-1 cranking for 5 s';

  test('counts since the last rest that is long enough', () => {
    const duty = starter('duty cranking at most 3 times, then rest 30 min');
    const four = (rest: string) => `step { ${run} wait 1 min ${run} wait 1 min ${run} wait ${rest} ${run} }`;
    expect(codesOf(four('30 min'), duty)).toEqual([]);
    expect(codesOf(four('29 min 59 s'), duty)).toEqual(['duty.too-often']);
    expect(codesOf(`repeat 3 times { step { ${run} wait 1 min } }`, duty)).toEqual([]);
    expect(codesOf(`repeat 4 times { step { ${run} wait 1 min } }`, duty)).toEqual(['duty.too-often']);
  });

  test('counts each run beyond it', () => {
    expectMarked(
      `
  step ${run}
  step wait 1 min
  step ${run}
  //   ^ duty.too-often
  step wait 1 min
  step ${run}
  //   ^ duty.too-often`,
      starter('duty cranking at most 1 times, then rest 30 min'),
    );
  });

  test('in a window counts starts, and the window is half open', () => {
    const duty = starter('duty cranking at most 2 times in 10 min');
    const three = (last: string) => `step { ${run} wait 55 s ${run} wait ${last} ${run} }`;
    expect(codesOf(three('8 min 55 s'), duty)).toEqual([]);
    expect(codesOf(three('8 min 54 s'), duty)).toEqual(['duty.too-often']);
  });
});

describe('how long something has been so', () => {
  const cool = { given: 'rule cool "Cooled down" { before drain open require motor-1 stopped for at least 45 min }' };
  const close = 'step set drain closed';

  test('counts on the path, in the worst case', () => {
    const waited = (wait: string) => `step { run motor-1 running for 5 s wait ${wait} set drain open } ${close}`;
    expect(codesOf(waited('45 min'), cool)).toEqual([]);
    expect(codesOf(waited('44 min 59 s'), cool)).toEqual(['safety.rule']);
    expect(codesOf(waited('at least 45 min'), cool)).toEqual([]);
  });

  test('is not settled before the card: broken where it is required', () => {
    expect(codesOf(`step set drain open ${close}`, cool)).toEqual(['safety.rule']);
  });

  test('may go either way where it is checked, and is known then', () => {
    expect(codesOf(`step { check motor-1 stopped for at least 45 min set drain open } ${close}`, cool)).toEqual([]);
    expect(
      codesOf(`if motor-1 stopped for at least 45 min { step { set drain open set drain closed } }`, cool),
    ).toEqual([]);
  });

  // The engine breaks it before a known and short enough time too.
  test('at most is no longer than', () => {
    const warm = { given: 'rule warm "Still warm" { before drain open require motor-1 stopped for at most 5 min }' };
    const waited = (wait: string) => `step { run motor-1 running for 5 s wait ${wait} set drain open } ${close}`;
    expect(codesOf(waited('5 min'), warm)).toEqual([]);
    expect(codesOf(waited('5 min 1 s'), warm)).toEqual(['safety.rule']);
    expect(codesOf(waited('4 min to 6 min'), warm)).toEqual(['safety.rule']);
  });
});

test('what is said to take its time where a duty begins is a hint', () => {
  const [finding] = findingsIn('step takes 20 s { set starter-1 cranking wait 5 s set starter-1 off }', longest);
  expect(finding).toMatchObject({ code: 'duty.takes', level: 'hint' });
});
