/** The work grows with what matters, and stays exact. */
import { describe, expect, test } from 'vitest';
import { largeCard } from '../../support/large-card.ts';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, pathTold, proofOf } from './prove.ts';

const valves = (count: number) =>
  numbers(count)
    .map((n) => `item v${n} : valve "valve ${n}" normally closed`)
    .join('\n');

test('forty two-way branches that touch different items are exact where a rule looks at two of them', () => {
  const { proof, at } = proofOf(
    [
      kinds,
      valves(40),
      'rule two "Two" { at end require v3 closed and v7 closed }',
      card(
        [
          ...numbers(40).map((n) => `if "Open ${n}?" { step set v${n} open }`),
          ...numbers(40).map((n) => (n === 7 ? '' : `step set v${n} closed`)),
        ].join('\n'),
      ),
    ].join('\n'),
  );
  expect(proof.rules.map(({ rule, blended }) => [rule.name, blended])).toEqual([['two', false]]);
  expect(proof.leftChanged.map(({ place, blended }) => [at(place), blended])).toEqual([['set v7 open', false]]);
  expect(pathTold(proof.rules[0])).toEqual(['“Open 3?”: no', '“Open 7?”: yes', 'valve 7: open', 'valve 3: closed']);
  expect(proof.explored).toBeLessThan(1000);
});

test('a rule over many items tells those of its path, and those that may be so on others', () => {
  const rule = `before v6 open require ${numbers(5)
    .map((n) => `v${n} closed`)
    .join(' and ')}`;
  const { proof } = proofOf(
    [
      kinds,
      valves(6),
      `rule shut "Shut" { ${rule} }`,
      card('if "Open 2?" { step set v2 open } if "Open 4?" { step set v4 open } step set v6 open'),
    ].join('\n'),
  );
  expect(proof.rules).toHaveLength(1);
  expect(proof.rules[0]?.unmet).toMatchObject([
    { item: { name: 'v2' }, possible: [1] },
    { item: { name: 'v4' }, possible: [1, 0] },
  ]);
  expect(pathTold(proof.rules[0])).toEqual(['“Open 2?”: yes', 'valve 2: open']);
});

test('a rule over many items and a reading tells nothing that is as it should be on its path', () => {
  const { proof } = proofOf(
    [
      kinds,
      valves(6),
      'gauge oil "oil pressure" in psi { reads 0 to 100 by 2 }',
      `rule shut "Shut" { before v6 open require oil at least 20 psi and ${numbers(5)
        .map((n) => `v${n} closed`)
        .join(' and ')} }`,
      card('if "Open 2?" { step set v2 open step read oil at least 20 psi } step set v6 open'),
    ].join('\n'),
  );
  expect(proof.rules.map(({ unmet }) => unmet)).toMatchObject([[{ type: 'reading', known: false }]]);
  expect(pathTold(proof.rules[0])).toEqual(['“Open 2?”: no']);
});

test('optional waits in a row cost no more than their number', () => {
  const explored = (waits: number) => {
    const { proof } = proofOf(
      [
        kinds,
        'item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }',
        card(
          [
            'step run starter-1 cranking for 30 s',
            ...numbers(waits).map((n) => `if "Wait ${n}?" { step wait ${n + 3} s }`),
            'step run starter-1 cranking for 30 s',
          ].join('\n'),
        ),
      ].join('\n'),
    );
    expect(proof.duties.map(({ sort, worst }) => [sort, worst?.valueOf()])).toEqual([['short-rest', 0]]);
    return proof.explored;
  };
  const five = explored(5);
  expect(explored(15)).toBeLessThanOrEqual(3 * five);
});

test('a starter in one of three lanes of six checks is timed over few places, and exactly', () => {
  const explored = (duty: string) => {
    const checks = (lamp: string) => `step takes 1 s check ${lamp} dark else finish `.repeat(6);
    const crank = 'step run starter-1 cranking for 10 s';
    const lanes = `together {
      by one { ${crank} ${checks('lamp-1')} ${crank} } by two { ${checks('lamp-2')} } by three { ${checks('lamp-3')} }
    }`;
    const items = [
      `item starter-1 : starter "the starter" normally off { ${duty} }`,
      ...[1, 2, 3].map((n) => `item lamp-${n} : lamp "lamp ${n}"`),
    ];
    return proofOf([kinds, ...items, card(lanes)].join('\n')).proof;
  };
  const { duties, explored: all } = explored('duty cranking at most 30 s, then rest 11 s');
  expect(duties.map(({ sort, worst, blended }) => [sort, worst?.valueOf(), blended])).toEqual([
    ['unbounded', undefined, false],
    ['short-rest', 6, false],
    ['unbounded', undefined, false],
  ]);
  expect(all - explored('').explored).toBeLessThan(1000);
});

test('three lanes of ten steps are exact', () => {
  const lane = (role: string, first: number) =>
    `by ${role} { ${numbers(10)
      .map((n) => `step takes 1 s set v${first + n} open`)
      .join('\n')} }`;
  const { proof, at } = proofOf(
    [
      kinds,
      valves(30),
      'rule order "Order" { while v3 open require v15 closed or v25 closed }',
      'rule late "Late" { before v10 open require v9 open }',
      card(
        [
          `together { ${lane('one', 0)} ${lane('two', 10)} ${lane('three', 20)} }`,
          ...numbers(30).map((n) => `step set v${n} closed`),
        ].join('\n'),
      ),
    ].join('\n'),
  );
  expect(proof.rules.map(({ rule, place, blended }) => [rule.name, at(place), blended]).sort()).toEqual([
    ['order', 'set v15 open', false],
    ['order', 'set v25 open', false],
    ['order', 'set v3 open', false],
  ]);
});

test('past the bound the engine blends: nothing is missed, and it says so', () => {
  const text = [
    kinds,
    valves(12),
    `rule all "All" { at end require ${numbers(12)
      .map((n) => `v${n} closed`)
      .join(' and ')} or v1 open }`,
    card(
      numbers(12)
        .map((n) => `if "Open ${n}?" { step set v${n} open }`)
        .join('\n'),
    ),
  ].join('\n');
  const { proof: exact } = proofOf(text);
  const { proof: blended } = proofOf(text, 100);
  expect(exact.rules.map((one) => one.blended)).toEqual([false]);
  expect(blended.rules.map((one) => one.blended)).toEqual([true]);
  expect(blended.explored).toBeLessThan(exact.explored);
});

test('counted rounds are counted', () => {
  const broken = (rounds: number) =>
    proofOf(
      [
        kinds,
        'item starter-1 : starter "the starter" normally off { duty cranking at most 3 times, then rest 30 min }',
        card(`repeat ${rounds} times { step { run starter-1 cranking for 10 s wait 60 s } }`),
      ].join('\n'),
    ).proof.duties.map(({ sort, count }) => [sort, count]);
  expect(broken(3)).toEqual([]);
  expect(broken(4)).toEqual([['too-often', 4]]);
});

test('the states explored grow with the steps, not with the ways through them', () => {
  const explored = (steps: number, branches: number) => proofOf(largeCard(steps, branches)).proof.explored;
  const small = explored(250, 25);
  expect(explored(500, 50)).toBeLessThan(4 * small);
  expect(explored(1000, 0)).toBeLessThan(3 * explored(500, 0));
});

test('a way through rounds that do not matter is told round by round', () => {
  const starter = 'item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }';
  const rounds = 'repeat 2 times { repeat 2 times { step wait 9 s } step wait 1 s }';
  const run = 'step run starter-1 cranking for 5 s';
  const [broken] = proofOf([kinds, starter, card(`${run} ${rounds} ${run}`)].join('\n')).proof.duties;
  expect(broken?.worst?.valueOf()).toBe(38);
  expect(pathTold(broken)).toEqual([
    'the starter: cranking',
    'the starter goes back (5 s later)',
    'second time round (9 s later)',
    'second time round (10 s later)',
    'second time round (9 s later)',
  ]);
});

describe('past the bound', () => {
  const starter = 'item starter-1 : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }';
  const rounds = (times: number, rest: number, bound: number) =>
    proofOf(
      [kinds, starter, card(`repeat ${times} times { step { run starter-1 cranking for 5 s wait ${rest} s } }`)].join(
        '\n',
      ),
      bound,
    ).proof;

  test('rounds are counted no longer, and what is found says so', () => {
    const few = rounds(1_000, 59, 500);
    const many = rounds(1_000_000, 59, 500);
    expect(many.explored).toBe(few.explored);
    expect(many.explored).toBeLessThan(4 * 500);
    expect(many.duties.map(({ sort, worst }) => [sort, worst?.valueOf()])).toEqual([['short-rest', 59]]);
    expect(rounds(1_000_000, 60, 500).duties).toEqual([]);
  });

  test('nested rounds too', () => {
    const nested = `${'repeat 3 times { '.repeat(12)}step { run starter-1 cranking for 5 s wait 59 s }${' }'.repeat(12)}`;
    const { explored, duties } = proofOf([kinds, starter, card(nested)].join('\n'), 500).proof;
    expect(explored).toBeLessThan(12 * 500);
    expect(duties.map(({ sort }) => sort)).toEqual(['short-rest']);
  });

  test('what holds only after a number of rounds may be a false alarm, and says so', () => {
    const body = `repeat 900 times { step { run starter-1 cranking for 1 s wait 60 s } }
      if "Again?" { step set starter-1 cranking }`;
    const { duties } = proofOf([kinds, starter, card(body)].join('\n'), 200).proof;
    expect(duties.map(({ sort, blended }) => [sort, blended])).toEqual([['unbounded', true]]);
  });
});

/** States of small cards at four sizes. */
describe('small cards', () => {
  const sizes = [4, 8, 16, 32];
  const explored = (items: string, body: string) => proofOf([kinds, items, card(body)].join('\n')).proof.explored;
  const each = (count: number, line: (n: number) => string) => numbers(count).map(line).join('\n');
  const perNLogN = (states: readonly number[]) =>
    states.map((count, at) => count / (sizes[at] as number) / Math.log2(sizes[at] as number));
  const duty = (n: number) =>
    `item s${n} : starter "starter ${n}" normally off { duty cranking at most 30 s, then rest 60 s }`;
  const runOf = (n: number) => `step by one run s${n} cranking for 10 s step by two wait 60 s`;
  const lamp = (n: number) => `item l${n} : lamp "lamp ${n}"`;
  const duties = (count: number, rounds: number) =>
    explored(
      each(count, duty),
      each(count, (n) => `repeat ${rounds} times { ${runOf(n)} }`),
    );
  const opened = (count: number) => each(count, (n) => `item v${n} : valve "valve ${n}"`);

  test.each([
    [
      'put-backs',
      (n: number) =>
        explored(valves(n), `${each(n, (i) => `step set v${i} open`)}\n${each(n, (i) => `step set v${i} closed`)}`),
    ],
    [
      'open items under one rule',
      (n: number) =>
        explored(
          `${opened(n)}\nrule all "All" { at end require every valve closed }`,
          each(n, (i) => `step ensure v${i} closed`),
        ),
    ],
    [
      'one check of all open items',
      (n: number) =>
        explored(`${opened(n)}\nrule all "All" { at end require every valve closed }`, 'step check every valve closed'),
    ],
    [
      'questions on each of the items under one rule',
      (n: number) =>
        explored(
          `${valves(n)}\nrule all "All" { at end require every valve closed }`,
          each(n, (i) => `if "Open ${i}?" { step set v${i} open }`),
        ),
    ],
    [
      'nested branches',
      (n: number) => explored(valves(n), `${each(n, (i) => `if v${i} open { step "Look."`)}${'}'.repeat(n)}`),
    ],
    [
      'gauges that are read and branched on',
      (n: number) =>
        explored(
          `${valves(1)}\n${each(n, (i) => `gauge g${i} "gauge ${i}" in psi`)}\nrule shut "Shut" { before v1 open require v1 closed }`,
          each(n, (i) => `step read g${i} 1 psi to 5 psi if g${i} above 3 psi { step set v1 open step set v1 closed }`),
        ),
    ],
    [
      'counted rounds of a duty',
      (n: number) =>
        explored(
          'item s : starter "the starter" normally off { duty cranking at most 30 s, then rest 60 s }',
          `repeat ${n} times { step { run s cranking for 10 s wait 60 s } }`,
        ),
    ],
    ['duties, each in a loop of its own', (n: number) => duties(n, 4)],
    [
      'duties, each in a loop with a check',
      (n: number) =>
        explored(
          each(n, (i) => `${duty(i)} ${lamp(i)}`),
          each(n, (i) => `repeat 4 times { step by one check l${i} dark else stop "Call." ${runOf(i)} }`),
        ),
    ],
    [
      'duties, each in a loop with a question',
      (n: number) =>
        explored(
          each(n, duty),
          each(n, (i) => `repeat 4 times { if "Is it?" { step wait 1 s } ${runOf(i)} }`),
        ),
    ],
    [
      'items, each set in a loop of its own',
      (n: number) =>
        explored(
          valves(n),
          each(n, (i) => `repeat 4 times { step set v${i} open step set v${i} closed }`),
        ),
    ],
    [
      'sets of one item, each on a way of its own',
      (n: number) =>
        explored(
          valves(1),
          each(n, (i) => `if "Open ${i}?" { step set v1 open }`),
        ),
    ],
    [
      'a loop without a bound on what it counts',
      (n: number) =>
        explored('item cap : valve "the cap"', `repeat at most ${n} times until cap open { step "Look." }`),
    ],
  ] as const)('%s grow no faster than N log N', (_, states) => {
    const growth = perNLogN(sizes.map(states));
    expect(growth).toEqual([...growth].sort((one, other) => other - one));
  });

  test('rounds that only take time between two runs are one place, however many they are', () => {
    const between = (rounds: number) =>
      explored(
        duty(1),
        `step run s1 cranking for 10 s repeat ${rounds} times { step wait 1 s } step run s1 cranking for 10 s`,
      );
    expect(sizes.map(between)).toEqual(sizes.map(() => between(2)));
  });

  test('rounds in rounds that only take time between two runs are one place as well', () => {
    const between = (rounds: number) => {
      const inner = `repeat ${rounds} times { step wait 1 s }`;
      const nested = `repeat ${rounds} times { ${inner} }`;
      return explored(duty(1), `step run s1 cranking for 10 s ${nested} step run s1 cranking for 10 s`);
    };
    expect(sizes.map(between)).toEqual(sizes.map(() => between(2)));
  });

  test('behind a run that may have been all is one place, whether it has been or not', () => {
    const maybe = (runs: number) =>
      explored(
        `${valves(2)}\nrule shut "Shut" { before v1 open require v2 closed }`,
        `${each(runs, (n) => `if "Open ${n}?" { step run v1 open for 1 s }`)} step run v1 open for 1 s`,
      );
    expect(sizes.map(maybe)).toEqual(sizes.map((n) => 5 * n + 4));
  });

  test('a duty costs what the rounds of its own loop cost', () => {
    expect(sizes.map((n) => duties(n, n))).toEqual(sizes.map((n) => 5 * n * n + 4 * n + 1));
  });

  /** Lanes for so many roles, and behind them what must not come within 40 s of what was before them. */
  function lanesUnderRule(lanes: number, together: (roles: readonly string[]) => string) {
    const roles = numbers(lanes).map((lane) => `r${lane}`);
    const text = [
      kinds,
      valves(2),
      'rule rested "Rested" { before v2 open require v1 open for at least 40 s }',
      `card lanes "Lanes" { number "1" revision "A" crew ${roles.map((role) => `${role} "${role}"`).join(', ')}`,
      'step set v1 open',
      `together { ${together(roles)} }`,
      'step { set v2 open set v2 closed set v1 closed }',
      '}',
    ];
    return proofOf(text.join('\n')).proof;
  }

  test.each([
    [2, 16, 900, ''],
    [3, 8, 2_300, ''],
    [3, 16, 15_000, ''],
    // Each round in one lane is another time for the others, until they are too far apart to meet.
    [2, 8, 2_600, 'check "Is it so?" else go to s0-1'],
  ])('%i lanes of %i steps under a rule that asks how long stay within %i: %s', (lanes, steps, most, again) => {
    const lane = (role: string, at: number) =>
      `by ${role} { ${each(steps, (n) => `step s${at}-${n}: { wait ${at + n} s to ${at + n + 4} s ${n === steps && at === 0 ? again : ''} }`)} }`;
    const proof = lanesUnderRule(lanes, (roles) => roles.map(lane).join('\n'));
    expect(proof.rules).toHaveLength(0);
    expect(proof.explored).toBeLessThan(most);
  });

  // Each lane goes round by itself, and is so at any of many times beside the others.
  test('lanes in lanes that go round under a rule that asks how long come to rest', () => {
    const again = (at: number) => `check "Is it so?" else go to s${at}-1`;
    const lane = (role: string, at: number) =>
      `by ${role} { ${each(3, (n) => `step s${at}-${n}: { wait ${5 * at + n} s to ${7 * at + 4 * n} s ${n === 3 ? again(at) : ''} }`)} }`;
    const both = (role: string, first: number, roles: readonly string[]) =>
      `by ${role} { together { ${[first, first + 1].map((at) => lane(roles[at] as string, at)).join('\n')} } }`;
    const proof = lanesUnderRule(4, (roles) => [0, 2].map((at) => both(roles[at] as string, at, roles)).join('\n'));
    expect(proof.rules).toHaveLength(0);
    expect(proof.explored).toBeLessThan(7_000);
  });

  test.each([
    [3, 16, 6_000, false],
    // More interleavings than are drawn: every order is allowed, and what is found says that it may be a false alarm.
    [8, 4, 300, true],
  ])('%i lanes of %i steps, and a rule over three of them, stay within %i', (lanes, steps, most, isBlended) => {
    const roles = numbers(lanes).map((lane) => `r${lane}`);
    const lane = (role: string, at: number) =>
      `by ${role} { ${each(steps, (n) => `step set v${at * steps + n} open`)} }`;
    const text = [
      kinds,
      valves(lanes * steps),
      `rule order "Order" { while v3 open require v${steps + 3} closed or v${2 * steps + 3} closed }`,
      `card lanes "Lanes" { number "1" revision "A" crew ${roles.map((role) => `${role} "${role}"`).join(', ')}`,
      `together { ${roles.map(lane).join('\n')} }`,
      each(lanes * steps, (n) => `step set v${n} closed`),
      '}',
    ];
    const { proof } = proofOf(text.join('\n'));
    expect(proof.rules.map(({ blended }) => blended)).toEqual([isBlended, isBlended, isBlended]);
    expect(proof.explored).toBeLessThan(most);
  });
});
