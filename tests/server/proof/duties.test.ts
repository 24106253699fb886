/** Worst cases of duties over all paths: the figures, and where they come from. */
import { describe, expect, test } from 'vitest';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, pathTold, proofOf } from './prove.ts';

const valve = 'item drain : valve "the drain valve" normally closed';
const long = 'duty cranking at most 60 s, then rest 240 s';
const counted = 'duty cranking at most 3 times, then rest 1 h';
const windowed = 'duty cranking at most 3 times in 1 h';
const run = (seconds: number) => `run starter-1 cranking for ${seconds} s`;

function proved(duty: string, body: string) {
  const starter = `item starter-1 : starter "the starter" normally off { ${duty} }`;
  return proofOf([kinds, 'variant fit old, new', valve, starter, card(body)].join('\n'));
}

/** `sort worst/limit missing (count)` */
const told = (duty: string, body: string) =>
  proved(duty, body).proof.duties.map(
    ({ sort, worst, limit, missing, count }) =>
      `${sort} ${worst?.valueOf() ?? 'any'}/${limit.valueOf()} ${missing?.valueOf() ?? 'any'}${count ? ` (${count})` : ''}`,
  );

const path = (duty: string, body: string) => proved(duty, body).proof.duties.map(pathTold);

test('the longest of several ways counts, each run for itself', () => {
  expect(told(long, `if "Cold?" { step { ${run(70)} } } else { step { ${run(65)} } }`)).toEqual([
    'too-long 70/60 10',
    'too-long 65/60 5',
  ]);
  expect(
    told(
      long,
      'step { set starter-1 cranking wait 20 s } if "Cold?" { step wait 45 s } else { step wait 50 s } step { wait 0 s set starter-1 off }',
    ),
  ).toEqual(['too-long 70/60 10']);
});

test('of two rests before the last run the path goes by the shorter', () => {
  const rest = (yes: string, no: string) =>
    `step ${run(5)} if "Cold?" { step wait ${yes} } else { step wait ${no} } step ${run(5)} step ${run(5)} step ${run(5)}`;
  const answers = (yes: string, no: string) =>
    path(counted, rest(yes, no))
      .flat()
      .filter((told) => told.includes('Cold'));
  expect(answers('10 min', '20 min')).toEqual(['“Cold?”: yes']);
  expect(answers('20 min', '10 min')).toEqual(['“Cold?”: no']);
});

test('times are exact to the microsecond', () => {
  const held = (rest: string) => `step { set starter-1 cranking wait 60 s ${rest} set starter-1 off }`;
  expect(told(long, held(''))).toEqual([]);
  expect(told(long, held('wait 0.000001 s'))).toEqual(['too-long 60.000001/60 0.000001']);
});

test('a set of what is so already starts no second run', () => {
  expect(
    told(long, 'step { set starter-1 cranking wait 40 s set starter-1 cranking wait 30 s set starter-1 off }'),
  ).toEqual(['too-long 70/60 10']);
});

test('a run that goes on at a finish or a stop has no end', () => {
  expect(told(long, 'step { set starter-1 cranking wait 1 s }')).toEqual(['unbounded any/60 any']);
  expect(told(long, 'step { set starter-1 cranking wait 1 s check "Well?" set starter-1 off }')).toEqual([
    'unbounded any/60 any',
  ]);
  expect(
    told(
      long,
      'stage "A" { step { set starter-1 cranking wait 1 s check "Well?" set starter-1 off } } stage "B" when stopped { step { wait 60 s set starter-1 off } }',
    ),
  ).toEqual(['too-long 61/60 1']);
});

test('a run in rounds goes on from round to round', () => {
  expect(
    told(
      long,
      'step { set starter-1 cranking wait 0 s } repeat 3 times { step wait 20 s } step { wait 0 s set starter-1 off }',
    ),
  ).toEqual([]);
  expect(
    told(
      long,
      'step { set starter-1 cranking wait 0 s } repeat 4 times { step wait 20 s } step { wait 0 s set starter-1 off }',
    ),
  ).toEqual(['too-long 80/60 20']);
  expect(
    told(
      long,
      'step { set starter-1 cranking wait 0 s } step again: wait 20 s if "Again?" { go to again } step { wait 0 s set starter-1 off }',
    ),
  ).toEqual(['unbounded any/60 any']);
});

test('of several machines the one with the longest run counts', () => {
  const on = (old: number, other: number) =>
    `step { set starter-1 cranking } step only fit old wait ${old} s step only fit new wait ${other} s step { wait 0 s set starter-1 off }`;
  expect(told(long, on(70, 80))).toEqual(['too-long 80/60 20']);
  expect(told(long, on(80, 70))).toEqual(['too-long 80/60 20']);
});

test('the shortest rest of several ways counts', () => {
  const between = (a: number, b: number) =>
    `step { ${run(10)} } if "Hot?" { step wait ${a} s } else { step wait ${b} s } step { wait 100 s ${run(10)} }`;
  expect(told(long, between(150, 140))).toEqual([]);
  expect(told(long, between(150, 139))).toEqual(['short-rest 239/240 1']);
  expect(told(long, between(130, 150))).toEqual(['short-rest 230/240 10']);
});

test('no rest is asked before the first run, and the card relies on it', () => {
  const { proof } = proved(long, `step { ${run(10)} }`);
  expect(proof.duties).toEqual([]);
  expect(proof.restReliances.map(({ item, rest }) => `${item.name} ${rest.valueOf()}`)).toEqual(['starter-1 240']);
  expect(proved(long, 'step "Look."').proof.restReliances).toEqual([]);
  expect(proved(long, 'step set starter-1 off').proof.restReliances).toEqual([]);
});

test('the longest rest of an item’s duties is relied on', () => {
  const rests = (duties: string) =>
    proved(duties, `step { ${run(10)} }`).proof.restReliances.map(({ rest }) => rest.valueOf());
  expect(rests(`${long} ${counted}`)).toEqual([3600]);
  expect(rests('duty cranking at most 60 s, then rest 2 h duty cranking at most 3 times in 1 h')).toEqual([7200]);
  expect(rests('duty cranking at most 60 s')).toEqual([]);
});

test('a run in a round rests since the round before', () => {
  expect(told(long, `repeat 2 times { step { ${run(10)} wait 239 s } }`)).toEqual(['short-rest 239/240 1']);
  expect(told(long, `repeat 2 times { step { ${run(10)} wait 240 s } }`)).toEqual([]);
});

test('runs are counted since the last long rest', () => {
  const four = (rests: readonly string[]) =>
    `step { ${run(10)} ${rests.map((rest) => `wait ${rest} ${run(10)}`).join(' ')} }`;
  expect(told(counted, four(['1 s', '1 s']))).toEqual([]);
  expect(told(counted, four(['1 s', '1 s', '59 min']))).toEqual(['too-often 3540/3600 60 (4)']);
  expect(told(counted, four(['1 s', '1 s', '1 h']))).toEqual([]);
  expect(told(counted, four(['1 s', '1 h', '1 s', '1 s']))).toEqual([]);
  expect(told(counted, four(['1 s', '1 h', '1 s', '1 s', '5 s']))).toEqual(['too-often 5/3600 3595 (4)']);
});

test('every run beyond what the count allows is told', () => {
  expect(
    told(
      counted,
      `step { ${run(10)} wait 1 s ${run(10)} wait 2 s ${run(10)} wait 3 s ${run(10)} wait 4 s ${run(11)} }`,
    ),
  ).toEqual(['too-often 3/3600 3597 (4)', 'too-often 4/3600 3596 (5)']);
});

test('of several ways the one with more runs counts', () => {
  expect(
    told(
      counted,
      `step { ${run(10)} } if "Again?" { step { wait 1 s ${run(10)} } } step { wait 1 s ${run(10)} wait 1 s ${run(10)} }`,
    ),
  ).toEqual(['too-often 1/3600 3599 (4)']);
  expect(
    told(
      counted,
      `step { ${run(10)} } if "Again?" { step { wait 1 s ${run(10)} wait 1 h } } step { wait 1 s ${run(10)} wait 1 s ${run(10)} }`,
    ),
  ).toEqual([]);
});

test('a run on one way only', () => {
  const maybe = `if "Again?" { step { ${run(10)} } }`;
  expect(told(long, `${maybe} step { wait 1 s ${run(10)} }`)).toEqual(['short-rest 1/240 239']);
  expect(told(long, `${maybe} step { wait 240 s ${run(10)} }`)).toEqual([]);
  expect(told(long, `if "Again?" { step "Look." } else { step { ${run(10)} } } step { wait 9 s ${run(10)} }`)).toEqual([
    'short-rest 9/240 231',
  ]);
  expect(
    told(long, 'if "Again?" { step { set starter-1 cranking wait 0 s } } step { wait 61 s set starter-1 off }'),
  ).toEqual(['too-long 61/60 1']);
  expect(proved(long, `${maybe} step { wait 240 s ${run(10)} }`).proof.restReliances).toHaveLength(1);
});

test('of several ways the figure is the worst of those with too many runs', () => {
  const ways = `if "Again?" { step { wait 1 s ${run(10)} wait 1 s ${run(10)} wait 7 s } } else { step { wait 1 s ${run(10)} wait 3 s } }`;
  expect(told(counted, `step { ${run(10)} wait 1 s ${run(10)} } ${ways} step { wait 0 s ${run(11)} }`)).toEqual([
    'too-often 1/3600 3599 (4)',
    'too-often 3/3600 3597 (4)',
  ]);
});

test('a window is half open, and slides', () => {
  const starts = (...gaps: string[]) => `step { ${run(10)} ${gaps.map((gap) => `wait ${gap} ${run(10)}`).join(' ')} }`;
  expect(told(windowed, starts('19 min 50 s', '19 min 50 s', '19 min 50 s'))).toEqual([]);
  expect(told(windowed, starts('19 min 50 s', '19 min 50 s', '19 min 49 s'))).toEqual(['too-often 3599/3600 1 (4)']);
  expect(told(windowed, starts('1 min', '1 min', '57 min 30 s', '1 min'))).toEqual([]);
  expect(told(windowed, starts('1 min', '1 min', '57 min 30 s', '59 s'))).toEqual(['too-often 3599/3600 1 (4)']);
});

test('of several ways the one whose starts are nearest counts, start by start', () => {
  expect(
    told(
      windowed,
      `step { ${run(10)} } if "Left?" { step { wait 50 min ${run(10)} wait 1 min } } else { step { wait 1 min ${run(10)} wait 50 min } }
       step { wait 4 min ${run(10)} wait 4 min ${run(10)} }`,
    ),
  ).toEqual(['too-often 3570/3600 30 (4)']);
});

test('a path that waits long enough does not hide one that does not', () => {
  expect(
    told(
      windowed,
      `repeat 3 times { step { ${run(10)} wait 1 min } } if "Rest?" { step wait 1 h } step { wait 0 s ${run(10)} }`,
    ),
  ).toEqual(['too-often 210/3600 3390 (4)']);
});

test('a watch that fails ends its run, as late as it can', () => {
  const watched = 'gauge p "pressure" in psi';
  const text = (length: number, within: number) =>
    proofOf(
      [
        kinds,
        `item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }`,
        watched,
        card(
          `stage "A" { step { run starter-1 cranking for ${length} s { watch p reaches at least 12 psi within ${within} s else go to again } } finish }
           stage again "Again" { step { wait 60 s run starter-1 cranking for 30 s } }`,
        ),
      ].join('\n'),
    ).proof.duties.map(({ sort, worst }) => `${sort} ${worst?.valueOf()}`);
  expect(text(30, 10)).toEqual([]);
  expect(text(31, 10)).toEqual(['too-long 31']);
  expect(text(30, 90)).toEqual([]);
});

test('lanes: the lane of the item is followed, the others only delay its end', () => {
  const lanes = (own: string, other: string, after: string) =>
    `step { ${run(10)} } together { by one { step { ${own} } } by two { step { ${other} } } } step { ${after} ${run(10)} }`;
  expect(told(long, lanes('wait 100 s', 'wait 239 s', 'wait 1 s'))).toEqual([]);
  expect(told(long, lanes('wait 100 s', 'wait 239 s', 'wait 0 s'))).toEqual(['short-rest 239/240 1']);
  expect(told(long, lanes(`wait 230 s ${run(5)} wait 10 s`, 'wait 480 s', 'wait 5 s'))).toEqual([
    'short-rest 230/240 10',
  ]);
  expect(told(long, lanes(`wait 240 s ${run(5)} wait 10 s`, 'wait 480 s', 'wait 4 s'))).toEqual([
    'short-rest 239/240 1',
  ]);
});

test('lanes: the longest that a run goes on is to the end of the longest lane', () => {
  const lanes = (other: string) =>
    `together { by one { step { wait 5 s to 9 s set starter-1 cranking wait 10 s } } by two { step wait ${other} } } step { wait 0 s set starter-1 off }`;
  expect(told(long, lanes('65 s'))).toEqual([]);
  expect(told(long, lanes('1 s to 66 s'))).toEqual(['too-long 61/60 1']);
});

test('lanes after lanes and in lanes', () => {
  const text = (inner: string) =>
    `step { ${run(10)} } together { by one { together { by one { step wait 10 s } by two { step wait ${inner} } } step wait 100 s } by two { step wait 60 s } }
     together { by one { step wait 40 s } by two { step wait 30 s } } step { wait 0 s ${run(10)} }`;
  expect(told(long, text('100 s'))).toEqual([]);
  expect(told(long, text('99 s'))).toEqual(['short-rest 239/240 1']);
});

test('a lane that may last any time lets a run go on without end', () => {
  expect(
    told(
      long,
      'together { by one { step { wait 0 s set starter-1 cranking wait 10 s } } by two { step "Look." } } step { wait 0 s set starter-1 off }',
    ),
  ).toEqual(['unbounded any/60 any']);
});

test('a run that is too long is told from its start, a short rest from the run before it', () => {
  const before = 'if "Wet?" { step wait 1 s }';
  expect(path(long, `${before} step { set starter-1 cranking wait 61 s set starter-1 off }`)).toEqual([
    ['the starter: cranking'],
  ]);
  expect(
    path(
      long,
      `${before} step { ${run(5)} wait 250 s ${run(6)} } if "Hot?" { step wait 9 s } step { wait 0 s ${run(7)} }`,
    ),
  ).toEqual([['the starter: cranking', 'the starter goes back (6 s later)', '“Hot?”: no']]);
});

test('too many runs are told from the first, the rounds by their numbers', () => {
  expect(path(counted, `repeat 4 times { step { ${run(5)} wait 1 s } }`)).toEqual([
    [
      'the starter: cranking',
      'the starter goes back (5 s later)',
      'second time round (1 s later)',
      'the starter: cranking',
      'the starter goes back (5 s later)',
      'third time round (1 s later)',
      'the starter: cranking',
      'the starter goes back (5 s later)',
      'fourth time round (1 s later)',
    ],
  ]);
});

test('a long rest on the way starts the count again, also in a procedure', () => {
  const text = (rest: string) =>
    proofOf(
      [
        kinds,
        `item starter-1 : starter "the starter" normally off { ${counted} }`,
        'procedure crank(s : starter) { step { run s cranking for 5 s } step wait 1 s }',
        card(`do crank(starter-1) do crank(starter-1) step wait ${rest} do crank(starter-1) do crank(starter-1)`),
      ].join('\n'),
    ).proof.duties.map(({ sort, count }) => `${sort} ${count}`);
  expect(text('1 h')).toEqual([]);
  expect(text('59 min')).toEqual(['too-often 4']);
});

test('a run is told once, with the longest that it comes to', () => {
  expect(told(long, 'step { set starter-1 cranking wait 61 s wait 10 s set starter-1 off }')).toEqual([
    'too-long 71/60 11',
  ]);
  expect(told(long, 'step { set starter-1 cranking wait 61 s wait 10 s }')).toEqual(['unbounded any/60 any']);
});

test('the way that is told is the one that gave the figure, whichever of two comes first', () => {
  const lasting = (first: number, second: number) =>
    path(
      long,
      `step { set starter-1 cranking wait 20 s } if "Cold?" { step wait ${first} s } else { step wait ${second} s } step { wait 0 s set starter-1 off }`,
    );
  expect(lasting(45, 50)).toEqual([['the starter: cranking', '“Cold?”: no (20 s later)']]);
  expect(lasting(50, 45)).toEqual([['the starter: cranking', '“Cold?”: yes (20 s later)']]);
  const resting = (first: number, second: number) =>
    path(
      long,
      `step { ${run(5)} } if "Hot?" { step wait ${first} s } else { step wait ${second} s } step { wait 0 s ${run(6)} }`,
    );
  expect(resting(10, 20)).toEqual([['the starter: cranking', 'the starter goes back (5 s later)', '“Hot?”: yes']]);
  expect(resting(20, 10)).toEqual([['the starter: cranking', 'the starter goes back (5 s later)', '“Hot?”: no']]);
});

test('of two ways with the same figure the first is told', () => {
  const { proof, at } = proved(
    long,
    `if "Hot?" { step { ${run(5)} } } else { step { ${run(6)} } } step { wait 9 s ${run(7)} }`,
  );
  expect(proof.duties.map((one) => one.path.map(({ place }) => at(place))[0])).toEqual([run(5)]);
});

test('rounds that nothing counts: the nearest starts are kept, and what lies before the window is forgotten', () => {
  const rounds = (wait: string) =>
    told(windowed, `step again: { ${run(10)} wait ${wait} } if "Again?" { go to again }`);
  expect(rounds('19 min 50 s')).toEqual([]);
  expect(rounds('19 min 49 s')).toEqual(['too-often 3597/3600 3 (4)']);
  const either = `step again: { ${run(10)} wait 30 min } if "Hot?" { step wait 5 min } if "Again?" { go to again }`;
  expect(told(windowed, either)).toEqual([]);
});

test('of three ways the third may be worse than the second, where the first is worse in another start', () => {
  const way = (before: number, after: number) => `step { wait ${before} min ${run(1)} wait ${after} min }`;
  const three = `choose { "A" { ${way(10, 10)} } or "B" { ${way(32, 8)} } or "C" { ${way(35, 5)} } }`;
  expect(
    told(
      windowed,
      `step { ${run(1)} } ${three} step { wait 0 s ${run(1)} wait 20 min ${run(1)} wait 20 min ${run(1)} }`,
    ),
  ).toEqual(['too-often 2403/3600 1197 (4)', 'too-often 2703/3600 897 (4)']);
});

test('more ways than are kept apart are one with the nearest start of each: nothing is missed', () => {
  const rests = numbers(7).map((n) => `if "Rest ${n}?" { step wait ${2 ** n} s }`);
  const ways = rests.map((rest) => `${rest} step { wait 1 s ${run(1)} }`).join(' ');
  const eight = 'duty cranking at most 7 times in 1 h';
  expect(told(eight, `step { ${run(1)} } ${ways}`)).toEqual(['too-often 14/3600 3586 (8)']);
  expect(told('duty cranking at most 7 times in 14 s', `step { ${run(1)} } ${ways}`)).toEqual([]);
});

test('counts of runs on several ways: each is kept with its own rest', () => {
  const again = (wait: string) => `if "Again?" { step { wait ${wait} ${run(10)} } }`;
  expect(told(counted, `step { ${run(10)} } ${again('1 s')} ${again('2 s')} ${again('3 s')}`)).toEqual([
    'too-often 3/3600 3597 (4)',
  ]);
  expect(told(counted, `step { ${run(10)} } ${again('1 s')} ${again('1 h')} ${again('3 s')} ${again('4 s')}`)).toEqual([
    'too-often 4/3600 3596 (4)',
  ]);
});

test('lanes: the lane that drives the item is followed, not one that drives another', () => {
  const both = (own: string) =>
    proofOf(
      [
        kinds,
        valve,
        `item starter-1 : starter "the starter" normally off { ${long} }`,
        'item pump : starter "the pump" normally off',
        card(
          `together { by one { step { run pump cranking for 5 s set drain open ensure drain closed } } by two { step { ${own} } } }`,
        ),
      ].join('\n'),
    ).proof.duties.map(({ sort, worst }) => `${sort} ${worst?.valueOf()}`);
  expect(both(run(61))).toEqual(['too-long 61']);
  expect(both('set starter-1 cranking wait 62 s ensure starter-1 off')).toEqual(['too-long 62']);
  expect(both(run(60))).toEqual([]);
});

test('lanes in lanes: a run after the inner ones rests to the end of the outer ones', () => {
  const lanes = (inner: string, others: string, after: string) =>
    `together { by one { together { by one { step wait 100 s } by three { step wait ${inner} } } step { ${run(10)} } } by two { step wait ${others} } }
     step { wait ${after} ${run(10)} }`;
  expect(told(long, lanes('50 s', '300 s', '50 s'))).toEqual([]);
  expect(told(long, lanes('50 s', '300 s', '49 s'))).toEqual(['short-rest 239/240 1']);
  expect(told(long, lanes('150 s', '300 s', '100 s'))).toEqual([]);
  expect(told(long, lanes('150 s', '300 s', '99 s'))).toEqual(['short-rest 239/240 1']);
  expect(told(long, lanes('50 s to 150 s', '300 s', '99 s'))).toEqual(['short-rest 239/240 1']);
  expect(told(long, lanes('50 s', '60 s', '240 s'))).toEqual([]);
  expect(told(long, lanes('50 s', '60 s', '239 s'))).toEqual(['short-rest 239/240 1']);
});

test('past the bound on states a duty may be a false alarm, and says so', () => {
  const text = [
    kinds,
    valve,
    `item starter-1 : starter "the starter" normally off { ${counted} }`,
    card(
      numbers(4)
        .map((n) => `if "Again ${n}?" { step { ${run(9 + n)} } }`)
        .join(' '),
    ),
  ].join('\n');
  const blended = (bound: number) => proofOf(text, bound).proof.duties.map((one) => one.blended);
  expect(blended(20_000)).toEqual([false]);
  expect(blended(2)).toEqual([true]);
});

describe('time counts from the first run on, and while one may be under way', () => {
  const twice = 'duty cranking at most 2 times in 60 s';
  const once = 'duty cranking at most 1 times in 60 s';

  test('what passes before the first run is told with no run', () => {
    const body = `step { wait 100 s ${run(1)} wait 5 s ${run(1)} wait 5 s ${run(1)} }`;
    expect(path(twice, body)).toEqual([
      [
        'the starter: cranking',
        'the starter goes back (1 s later)',
        'the starter: cranking (5 s later)',
        'the starter goes back (1 s later)',
      ],
    ]);
  });

  test('one that was begun before the card', () => {
    const started = (wait: number) =>
      proofOf(
        [
          kinds,
          `item starter-1 : starter "the starter" { ${once} }`,
          card(`step { wait ${wait} s ensure starter-1 off ${run(1)} }`),
        ].join('\n'),
      ).proof.duties.map(({ sort, worst }) => `${sort} ${worst?.valueOf()}`);
    expect(started(59)).toEqual(['too-often 59']);
    expect(started(60)).toEqual([]);
  });

  test('one that a run gives back', () => {
    expect(told(long, 'step { set starter-1 cranking run starter-1 off for 240 s }')).toEqual(['unbounded any/60 any']);
  });

  test('one of two ways that breaks the window is told, not the one with the nearer start', () => {
    const ways = `if "Warm?" { step { ${run(1)} wait 5 s } } else { step { ${run(1)} wait 20 s ${run(1)} wait 30 s } } step { ${run(1)} }`;
    expect(path(twice, ways).map((told) => told.slice(0, 2))).toEqual([['“Warm?”: no', 'the starter: cranking']]);
  });
});

test('what begins and ends a run by itself rests from then on, whatever else is done meanwhile', () => {
  const starter = `item starter-1 : starter "the starter" normally off may cranking when lid open may off when cap open { ${long} }`;
  const items = ['lid', 'cap', 'drain'].map((name) => `item ${name} : valve "the ${name}" normally closed`);
  const body = (rest: number) => `step takes 0 s { set lid open check starter-1 cranking else finish set lid closed }
    step takes 0 s { set cap open set cap closed check starter-1 off else finish }
    step run drain open for ${rest} s
    step run starter-1 cranking for 5 s`;
  const found = (rest: number) =>
    proofOf([kinds, ...items, starter, card(body(rest))].join('\n')).proof.duties.map(
      ({ sort, worst }) => `${sort} ${worst?.valueOf()}`,
    );
  expect(found(239)).toEqual(['short-rest 239']);
  expect(found(240)).toEqual([]);
});

test('what is under way where a path goes round for ever, and no time passes, lasts as long as it came to', () => {
  const round = (wait: number) =>
    `step { set drain closed set starter-1 cranking wait ${wait} s } keep drain open else go to again step again: { wait 1 s }`;
  expect(told(long, round(60))).toEqual([]);
  expect(told(long, round(61))).toEqual(['too-long 61/60 1']);
});
