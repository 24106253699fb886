/** Every way through each construct: what happens on it, and how long it takes. */
import { expect, test } from 'vitest';
import { flowOf, ledFlowOf, waysThrough } from './draw.ts';

const ways = (body: string, before = '') => waysThrough(flowOf(body, before));

test('a step takes its time before its actions, from left to right', () => {
  expect(ways('step takes 1 min to 2 min set drain open, vent open')).toEqual([
    'step 60 to 120 s, set drain open, set vent open, finish',
  ]);
  expect(ways('step "Look." takes at least 3 s')).toEqual(['step 3 to any s, finish']);
});

test('a step that has no time takes any, but none beside what has one', () => {
  expect(ways('step { record "It." sign one read pressure }')).toEqual(['0 to any s, finish']);
  expect(ways('step { wait at least 2 s run motor-1 running for 1 s }')).toEqual([
    'wait 2 to any s, begin motor-1 running, 1 s, end motor-1 running, finish',
  ]);
  expect(ways('step bring pressure at least 20 psi within 10 s else finish')).toEqual([
    'bring (it cannot be brought there) 10 s, no, finish',
    'bring 0 to 10 s, yes, finish',
  ]);
  expect(ways('step bring pressure at least 20 psi else finish')).toEqual([
    '0 to any s, bring (it cannot be brought there) 0 to any s, no, finish',
    '0 to any s, bring 0 to any s, yes, finish',
  ]);
});

test('ensure sets what is not so', () => {
  expect(ways('step ensure drain open')).toEqual(['0 to any s, no, set drain open, finish', '0 to any s, yes, finish']);
});

test('a stage without a name is gone to by its title, and has no label where nothing goes to it', () => {
  const out = '0 to any s, no (the reading fails), (on to "Shut it down"), step 2 s, finish';
  const read = 'step read pressure in normal else go to "Shut it down" step wait 1 s stage "Other" { step wait 3 s }';
  const [first, ...others] = ways(`${read} stage "Shut it down" { step "Look." takes 2 s }`);
  expect(first).toBe(out);
  expect(others).toEqual(['0 to any s, yes, wait 1 s, wait 3 s, step 2 s, finish']);
});

test('what fails goes by its else, or stops the card', () => {
  expect(
    ways('step read pressure in normal else go to out step wait 1 s stage out "Out" { step "Look." takes 2 s }'),
  ).toEqual([
    '0 to any s, no (the reading fails), (on to out), step 2 s, finish',
    '0 to any s, yes, wait 1 s, step 2 s, finish',
  ]);
  expect(ways('step check drain open')).toEqual([
    '0 to any s, no (the check fails), stopping (the card stops), stopped',
    '0 to any s, yes, finish',
  ]);
  expect(ways('step check "Well?"')).toEqual([
    '0 to any s, (“Well?”: no), stopping (the card stops), stopped',
    '0 to any s, finish',
  ]);
});

test('a run ends, also where what is watched fails, which is by its own time or that of the run', () => {
  const watched = (length: string, watch: string) =>
    ways(`step run motor-1 running for ${length} { watch pressure ${watch} else finish }`);
  expect(watched('5 s', 'reaches at least 20 psi within 3 s')).toEqual([
    'begin motor-1 running, no (what is watched on pressure fails) 3 s, end motor-1 running, finish',
    'begin motor-1 running, yes, 5 s, end motor-1 running, finish',
  ]);
  expect(watched('5 s', 'reaches at least 20 psi within 9 s')[0]).toBe(
    'begin motor-1 running, no (what is watched on pressure fails) 5 s, end motor-1 running, finish',
  );
  expect(watched('5 s to 8 s', 'stays above 20 psi')).toEqual([
    'begin motor-1 running, no (what is watched on pressure fails) 0 to 8 s, end motor-1 running, finish',
    'begin motor-1 running, yes, 5 to 8 s, end motor-1 running, finish',
  ]);
});

test('a run until something is so fails at the end of its time', () => {
  expect(ways('step run motor-1 running until pressure above 30 psi within 9 s else finish')).toEqual([
    'begin motor-1 running, meanwhile 0 to 9 s, yes, end motor-1 running, finish',
    'begin motor-1 running, meanwhile (the run does not bring it about in time) 9 s, no, end motor-1 running, finish',
  ]);
});

test('a wait until something is so is in vain at the end of its time, or at any', () => {
  expect(ways('step wait until drain open within 4 s')).toEqual([
    'wait (the wait is in vain) 4 s, no, stopping (the card stops), stopped',
    'wait 0 to 4 s, yes, finish',
  ]);
  expect(ways('step wait until drain open else finish')).toEqual([
    'wait (the wait is in vain) 0 to any s, no, finish',
    'wait 0 to any s, yes, finish',
  ]);
});

test('branches', () => {
  expect(
    ways('if drain open { step wait 1 s } else if vent open { step wait 2 s } else { finish } step wait 3 s'),
  ).toEqual([
    'yes (the condition holds), wait 1 s, wait 3 s, finish',
    'no (the condition does not hold), yes (the condition holds), wait 2 s, wait 3 s, finish',
    'no (the condition does not hold), no (the condition does not hold), finish',
  ]);
  expect(ways('if "Dry?" { step wait 1 s }')).toEqual(['(“Dry?”: yes), wait 1 s, finish', '(“Dry?”: no), finish']);
  expect(ways('choose { "Left" { step wait 1 s } or "Right" { step wait 2 s } }')).toEqual([
    '(“Left”), wait 1 s, finish',
    '(“Right”), wait 2 s, finish',
  ]);
});

test('rounds are counted, and asked after each', () => {
  expect(ways('repeat 3 times { step wait 1 s }')).toEqual([
    'wait 1 s, again (once more round), wait 1 s, again (once more round), wait 1 s, finish',
  ]);
  expect(ways('repeat at most 2 times until "Clean?" { step wait 1 s }')).toEqual([
    'wait 1 s, (“Clean?”: yes), finish',
    'wait 1 s, (“Clean?”: not yet), again (second time round), wait 1 s, (“Clean?”: yes), finish',
    'wait 1 s, (“Clean?”: not yet), again (second time round), wait 1 s, (“Clean?”: not yet), stopping (the card stops), stopped',
  ]);
  expect(ways('repeat at most 1 times until drain open { step wait 1 s } else finish')).toEqual([
    'wait 1 s, yes (what the rounds are for: yes), finish',
    'wait 1 s, no (what the rounds are for: not yet), finish',
  ]);
});

test('a block for each item, one after the other', () => {
  expect(ways('for each v in drain, vent { step takes 1 s set v open }')).toEqual([
    'step 1 s, set drain open, step 1 s, set vent open, finish',
  ]);
});

test('what is kept is asked at every step to the end of its block, none before', () => {
  const keep = 'keep drain closed else finish';
  expect(ways(`stage "A" { step wait 1 s ${keep} step wait 2 s step wait 3 s } stage "B" { step wait 4 s }`)).toEqual([
    'wait 1 s, no (what is to be kept no longer holds), finish',
    'wait 1 s, yes, wait 2 s, no (what is to be kept no longer holds), finish',
    'wait 1 s, yes, wait 2 s, yes, wait 3 s, wait 4 s, finish',
  ]);
});

test('jumps forward go on, jumps back forget', () => {
  expect(ways('step here: wait 1 s if "Again?" { go to here } go to there step wait 9 s step there: wait 2 s')).toEqual(
    [
      'wait 1 s, (“Again?”: yes), forget (back to here), wait 1 s, (“Again?”: no), (on to there), wait 2 s, finish',
      'wait 1 s, (“Again?”: no), (on to there), wait 2 s, finish',
    ],
  );
});

test('a jump to a label that is not there is told', () => {
  expect(flowOf('step there: wait 1 s go to there').unknownJumps).toBe(false);
});

test('admonitions for a hazard are shown, others say nothing of the machine', () => {
  expect(ways('warning heat note "Careful." step wait 1 s')).toEqual(['warning heat, wait 1 s, finish']);
});

test('every stop goes through the stages for it, where a stop just ends', () => {
  expect(
    ways(`stop "Broken." stage "Safe" when stopped { step { wait 1 s check "Well?" } if "Done?" { finish } }
      stage "More" when stopped { step wait 3 s }`),
  ).toEqual([
    'stopping (the card stops), wait 1 s, (“Well?”: no), stopping-early, stopped',
    'stopping (the card stops), wait 1 s, (“Done?”: yes), stopped',
    'stopping (the card stops), wait 1 s, (“Done?”: no), wait 3 s, stopped',
  ]);
});

test('a procedure finishes to its caller and stops everything', () => {
  const rinse = (end: string) =>
    `procedure rinse(v : valve) { step here: takes 1 s set v open if "Enough?" { ${end} } step wait 2 s }`;
  expect(ways('do rinse(drain) step here: wait 3 s', rinse('finish'))).toEqual([
    'step 1 s, set drain open, (“Enough?”: yes), wait 3 s, finish',
    'step 1 s, set drain open, (“Enough?”: no), wait 2 s, wait 3 s, finish',
  ]);
  expect(ways('do rinse(drain) step wait 3 s', rinse('stop "No."'))[0]).toBe(
    'step 1 s, set drain open, (“Enough?”: yes), stopping (the card stops), stopped',
  );
});

test('a card that is done is asked for what it assumes, and its own stages for a stop do not count', () => {
  const other = (fields: string) =>
    `card other "Other" { number "T-2" revision "A" crew one "One" ${fields} step wait 1 s
      stage "Safe" when stopped { step wait 7 s } }`;
  expect(ways('do other step wait 3 s', other('assume drain open'))).toEqual(['call, wait 1 s, wait 3 s, finish']);
  expect(ways('do other step wait 3 s', other(''))).toEqual(['wait 1 s, wait 3 s, finish']);
});

const distinct = (all: readonly string[]) => [...new Set(all)].sort();

test('lanes in every order', () => {
  expect(
    distinct(
      ways('together { by one { step wait 1 s } by two { step wait 2 s if "Well?" { step wait 3 s } } } step wait 4 s'),
    ),
  ).toEqual([
    'wait 1 s, wait 2 s, (“Well?”: no), wait 4 s, finish',
    'wait 1 s, wait 2 s, (“Well?”: yes), wait 3 s, wait 4 s, finish',
    'wait 2 s, (“Well?”: no), wait 1 s, wait 4 s, finish',
    'wait 2 s, (“Well?”: yes), wait 1 s, wait 3 s, wait 4 s, finish',
    'wait 2 s, (“Well?”: yes), wait 3 s, wait 1 s, wait 4 s, finish',
    'wait 2 s, wait 1 s, (“Well?”: no), wait 4 s, finish',
    'wait 2 s, wait 1 s, (“Well?”: yes), wait 3 s, wait 4 s, finish',
  ]);
  expect(distinct(ways('together { by one { step wait 1 s } by two { stop "No." } }'))).toEqual([
    'stopping (the card stops), stopped',
    'wait 1 s, stopping (the card stops), stopped',
  ]);
});

test('a pass in a lane is joined to the move before it, with its time and the step that it enters', () => {
  const flow = flowOf(
    'together { by one { step takes 1 s set drain open step { wait 2 s } } by two { step record "So." } }',
  );
  expect(distinct(waysThrough(flow))).toEqual([
    '0 to any s, step 1 s, set drain open, wait 2 s, finish',
    'step 1 s, 0 to any s, set drain open, wait 2 s, finish',
    'step 1 s, set drain open, 0 to any s, wait 2 s, finish',
    'step 1 s, set drain open, wait 2 s, 0 to any s, finish',
  ]);
  const joined = flowOf(
    'together { by one { step takes 1 s set drain open step record "It." step record "So." } by two { } }',
  );
  expect(waysThrough(joined)).toEqual(['step 1 s, set drain open 0 to any s, finish']);
  const set = joined.moves.find(({ happening }) => happening.type === 'set');
  expect(set?.steps?.map((step) => step.actions.map(({ type }) => type))).toEqual([['record'], ['record']]);
});

test('for timing the path follows one lane and waits for the longest of the others', () => {
  const lanes = `together {
    by one { step run motor-1 running for 1 s }
    by two { step { wait 2 s to 3 s set drain open, vent open } }
    by two { step wait 1 s to 4 s step { set drain closed check "Well?" else finish } }
  } step wait 9 s`;
  const flow = ledFlowOf(lanes, () => 0);
  expect(distinct(waysThrough(flow))).toEqual([
    'fork, begin motor-1 running, 1 s, end motor-1 running, join, finish',
    'fork, begin motor-1 running, 1 s, end motor-1 running, join, wait 9 s, finish',
    'fork, begin motor-1 running, 1 s, join, finish',
    'fork, begin motor-1 running, join, finish',
    'fork, join, finish',
  ]);
  const told = flow.moves.flatMap(({ happening }) =>
    happening.type === 'fork' || happening.type === 'join'
      ? [happening.changes.map(({ item, state }) => `${item.name} ${state}`)]
      : [],
  );
  expect(distinct(told.map((changes) => changes.join(', ')))).toEqual(['drain 1, vent 1, drain 0']);
  expect(flow.moves.map(({ happening }) => happening)).toContainEqual(
    expect.objectContaining({ type: 'join', others: { least: 2e6, most: Number.POSITIVE_INFINITY } }),
  );
});

test('for timing, where no lane is followed, they take as long as the longest', () => {
  const flow = ledFlowOf(
    'together { by one { step wait 1 s to 6 s } by two { step wait 2 s to 3 s if "Enough?" { finish } } } step wait 9 s',
    () => -1,
  );
  expect(waysThrough(flow)).toEqual(['fork, join 2 to 6 s, wait 9 s, finish', 'fork, join 2 to 3 s, finish']);
});

/** Lanes of so many steps. */
const lanesOf = (...steps: readonly number[]) =>
  `together { ${steps.map((count, lane) => `by ${lane === 0 ? 'one' : 'two'} { ${'step wait 1 s '.repeat(count)} }`).join(' ')} }`;

test('lanes whose interleavings are too many may do their moves in any order and number', () => {
  const flow = flowOf(`${lanesOf(58, 58, 58)} step wait 9 s`);
  expect(flow.blended).toBe(true);
  expect(flow.points).toBeLessThan(1000);
  const lanes = new Set(flow.moves.flatMap(({ lane }) => (lane ? [`${lane.index} ${lane.inside}`] : [])));
  expect(lanes).toEqual(new Set(['0 false', '1 false', '2 false']));
  const waits = flow.moves.filter(({ happening }) => happening.type === 'moment');
  expect(waits).toHaveLength(3 * 58 + 1);
  expect(new Set(waits.slice(0, -1).map(({ from, to }) => `${from} ${to}`)).size).toBe(1);
  expect(flowOf(lanesOf(30, 30)).blended).toBe(false);
});

test('a lane of many ways that end the card, where the interleavings are too many', () => {
  const flow = flowOf(
    `together { by one { ${'step wait 1 s '.repeat(450)} } by two { ${'step check "Well?" '.repeat(450)} } }`,
  );
  expect(flow.blended).toBe(true);
  const [stopping] = flow.moves.filter(({ happening }) => happening.type === 'stopping');
  expect(stopping?.to).not.toBe(stopping?.from);
});

test('a keep before lanes leads out of them', () => {
  const lanes = 'together { by one { step wait 1 s } by two { step wait 2 s } }';
  const left = ways(`stage "A" { keep drain closed else go to out ${lanes} finish } stage out "Out" { step wait 3 s }`);
  const out = 'no (what is to be kept no longer holds), (on to out), wait 3 s, finish';
  expect(distinct(left).filter((way) => way.includes('wait 3 s'))).toEqual([
    out,
    `yes, ${out}`,
    `yes, wait 1 s, ${out}`,
    `yes, wait 2 s, ${out}`,
  ]);
});
