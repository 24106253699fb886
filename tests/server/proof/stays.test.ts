/** How long something has been so, as rules, checks and branches ask it. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'item drain : valve "the drain valve" normally closed',
  'item lid : valve "the lid" normally closed',
  'item cap : valve "the cap"',
  'item lamp-1 : lamp "the lamp"',
].join('\n');
const undo = 'set drain closed';

/** Whether the rule is broken where the drain is opened after these statements. */
function broken(require: string, before: string, fields = '', stateBound?: number): boolean {
  const rule = `rule rested "Rested" { before drain open require ${require} }`;
  const text = [machine, rule, card(`${before} step { wait 0 s set drain open ${undo} }`, fields)].join('\n');
  return proofOf(text, stateBound).proof.rules.length > 0;
}

const ways = (asked: string, before: string) =>
  proofOf([machine, card(`${before} step { wait 0 s check ${asked} }`)].join('\n')).proof.branches.map(
    ({ passes, fails }) => `${passes ? 'passes' : ''}${passes && fails ? ' ' : ''}${fails ? 'fails' : ''}`,
  );

const openFor = (time: string) => `step { set lid open wait ${time} }`;

test.each([
  ['lid open for at least 60 s', openFor('60 s'), false],
  ['lid open for at least 60 s', openFor('59 s'), true],
  ['lid open for at least 60 s', openFor('59 s to 2 min'), true],
  ['lid open for at least 60 s', openFor('60 s to 2 min'), false],
  ['lid open for at least 60 s', openFor('at least 60 s'), false],
  ['lid open for at least 60 s', `${openFor('50 s')} step takes 10 s "Look."`, false],
  ['lid open for at least 60 s', `${openFor('50 s')} step "Look."`, true],
  ['lid open for at least 60 s', `${openFor('50 s')} step { set lid open wait 10 s }`, false],
  ['lid open for at least 60 s', `${openFor('50 s')} step { set lid closed set lid open wait 10 s }`, true],
  ['lid open for at least 60 s', `${openFor('50 s')} step { run lid open for 10 s }`, false],
  ['lid open for at least 60 s', `${openFor('50 s')} step { run lid closed for 10 s wait 59 s }`, true],
  ['lid open for at least 60 s', `${openFor('50 s')} step { run lid closed for 10 s wait 60 s }`, false],
  ['lid closed for at least 60 s', 'step wait 60 s', false],
  ['lid closed for at least 60 s', 'step wait 59 s', true],
  ['lid open for at least 60 s', 'step wait 60 s', true],
  ['not lid open for at least 60 s', openFor('60 s'), true],
  ['not lid open for at least 60 s', openFor('59 s'), false],
  ['not lid open for at least 60 s', 'step wait 90 s', false],
  ['lid open for at least 60 s or drain closed', openFor('59 s'), false],
  ['lid open for at least 60 s and drain open', openFor('60 s'), true],
  [
    'lid open for at least 60 s',
    'repeat 2 times { step { set lid open wait 60 s set lid closed } } step set lid open',
    true,
  ],
  ['lid open for at least 60 s', 'step { set lid open wait 0 s } repeat 3 times { step wait 20 s }', false],
  ['lid open for at least 60 s', 'step { set lid open wait 0 s } repeat 2 times { step wait 20 s }', true],
  [
    'lid open for at least 60 s',
    'step { set lid open wait 0 s } if "Cold?" { step wait 60 s } else { step wait 70 s }',
    false,
  ],
  [
    'lid open for at least 60 s',
    'step { set lid open wait 0 s } if "Cold?" { step wait 60 s } else { step wait 59 s }',
    true,
  ],
] as const)('%s, after %s: broken %s', (require, before, expected) => {
  expect(broken(require, before)).toBe(expected);
});

test('a check of it is known behind it', () => {
  const check = (asked: string) => `step { wait 0 s check ${asked} }`;
  expect(broken('lid closed for at least 60 s', check('lid closed for at least 60 s'))).toBe(false);
  expect(broken('lid closed for at least 60 s', check('lid closed for at least 61 s'))).toBe(false);
  expect(broken('lid closed for at least 60 s', check('lid closed for at least 59 s'))).toBe(true);
  expect(broken('lid closed for at least 60 s', `${check('lid closed for at least 50 s')} step wait 10 s`)).toBe(false);
  expect(broken('lid closed for at least 60 s', `${check('lid closed for at least 50 s')} step wait 9 s`)).toBe(true);
  expect(broken('cap closed for at least 60 s', check('cap closed'))).toBe(true);
  expect(broken('cap closed for at least 60 s', check('cap closed for at least 60 s'))).toBe(false);
  expect(broken('lid closed for at least 60 s', check('lid closed for at least 60 s or drain closed'))).toBe(true);
  expect(broken('lid closed for at least 60 s', check('not lid closed for at most 60 s and drain closed'))).toBe(false);
});

test('a check of it passes or fails as the times say', () => {
  expect(ways('lid open for at least 60 s', openFor('60 s'))).toEqual(['passes']);
  expect(ways('lid open for at least 60 s', openFor('59 s'))).toEqual(['fails']);
  expect(ways('lid open for at least 60 s', openFor('59 s to 60 s'))).toEqual(['passes fails']);
  expect(ways('lid open for at most 60 s', openFor('60 s'))).toEqual(['passes']);
  expect(ways('lid open for at most 60 s', openFor('61 s'))).toEqual(['fails']);
  expect(ways('lid open for at most 60 s', openFor('60 s to 61 s'))).toEqual(['passes fails']);
  expect(ways('lid closed for at least 60 s', 'step wait 1 s')).toEqual(['passes fails']);
  expect(ways('lid closed for at most 60 s', 'step wait 1 s')).toEqual(['passes fails']);
  expect(ways('lid closed for at most 60 s', 'step wait 61 s')).toEqual(['fails']);
  expect(ways('lid closed for at least 60 s', 'step wait 60 s')).toEqual(['passes']);
});

test('a way that the times close is not gone', () => {
  const body = (wait: string) =>
    `step { set lid open wait ${wait} } if lid open for at least 60 s { step set cap closed } else { step set cap open }`;
  const rule = 'rule shut "Shut" { before drain open require cap closed }';
  const told = (wait: string) =>
    proofOf([machine, rule, card(`${body(wait)} step { wait 0 s set drain open ${undo} }`)].join('\n')).proof.rules
      .length;
  expect(told('60 s')).toBe(0);
  expect(told('59 s')).toBe(1);
});

test('what is seen has been so since it was last looked at, at the most', () => {
  const lit = (between: string) => broken('lamp-1 lit for at least 60 s', `step { check lamp-1 lit ${between} }`);
  expect(lit('wait 60 s')).toBe(true);
  expect(lit('wait 60 s check lamp-1 lit for at least 60 s')).toBe(true);
});

const beside = (one: string, two: string) => `together { by one { ${one} } by two { ${two} } }`;

test('the times of lanes pass beside each other, and they come together when the longest is over', () => {
  const lanes = (own: string, other: string) => beside(`step { set lid open wait ${own} }`, `step wait ${other}`);
  expect(broken('lid open for at least 60 s', lanes('60 s', '1 s'))).toBe(false);
  expect(broken('lid open for at least 60 s', lanes('59 s', '5 s'))).toBe(true);
  expect(broken('lid open for at least 60 s', lanes('5 s', '60 s'))).toBe(false);
  expect(broken('lid open for at most 60 s', lanes('60 s', '60 s'))).toBe(false);
  expect(broken('lid open for at most 60 s', lanes('5 s', '61 s'))).toBe(true);
});

test('what was so before the lanes has been so for as long as the longest of them takes', () => {
  const lanes = (one: string, two: string) => `${openFor('50 s')} ${beside(`step wait ${one}`, `step wait ${two}`)}`;
  for (const [one, two] of [
    ['1 s', '10 s'],
    ['10 s', '1 s'],
  ] as const) {
    expect(broken('lid open for at least 60 s', lanes(one, two))).toBe(false);
    expect(broken('lid open for at least 60.000001 s', lanes(one, two))).toBe(true);
    expect(broken('lid open for at most 60 s', lanes(one, two))).toBe(false);
    expect(broken('lid open for at most 59.999999 s', lanes(one, two))).toBe(true);
  }
  expect(broken('lid open for at least 60 s', lanes('1 s to 20 s', '9 s to 10 s'))).toBe(true);
  expect(broken('lid open for at most 70 s', lanes('1 s to 20 s', '9 s to 10 s'))).toBe(false);
});

test('what happens in one lane is as old as the longest lane takes after it', () => {
  const lanes = (at: string, other: string) => beside(`step { wait ${at} set lid open }`, `step wait ${other}`);
  expect(broken('lid open for at least 60 s', lanes('30 s', '90 s'))).toBe(false);
  expect(broken('lid open for at least 60 s', lanes('30 s to 31 s', '90 s'))).toBe(true);
  expect(broken('lid open for at most 60 s', lanes('30 s to 31 s', '90 s'))).toBe(false);
  expect(broken('lid open for at most 60 s', lanes('29 s', '90 s'))).toBe(true);
  expect(broken('lid closed for at least 180 s', beside('step run lid open for 60 s', 'step wait 240 s'))).toBe(false);
  expect(broken('lid closed for at least 181 s', beside('step run lid open for 60 s', 'step wait 240 s'))).toBe(true);
});

test('a lane looks in its own time, however far the others are', () => {
  const opens = (time: string) => `step { wait ${time} set drain open ${undo} }`;
  const told = (require: string, body: string) =>
    proofOf([machine, `rule rested "Rested" { before drain open require ${require} }`, card(body)].join('\n')).proof
      .rules.length > 0;
  const older = (time: string) => `${openFor('50 s')} ${beside(opens(time), 'step wait 300 s')}`;
  expect(told('lid open for at least 60 s', older('10 s'))).toBe(false);
  expect(told('lid open for at least 60 s', older('9 s'))).toBe(true);
  expect(told('lid open for at most 60 s', older('10 s'))).toBe(false);
  expect(told('lid open for at most 60 s', older('11 s'))).toBe(true);
  const other = (at: string, time: string) => beside(`step { wait ${at} set lid open wait 300 s }`, opens(time));
  expect(told('lid closed or lid open for at most 60 s', other('10 s', '70 s'))).toBe(false);
  expect(told('lid closed or lid open for at most 60 s', other('10 s', '71 s'))).toBe(true);
  expect(told('lid closed or lid open for at least 60 s', other('10 s', '70 s'))).toBe(false);
  expect(told('lid closed or lid open for at least 60 s', other('10 s', '69 s'))).toBe(true);
});

test('what another lane has done before tells that at least its time has passed', () => {
  const lanes = (time: string) =>
    beside(`step { set lid open wait ${time} set cap open }`, `step { wait at least 1 s set drain open ${undo} }`);
  const rule = 'rule rested "Rested" { before drain open require not cap open or lid open for at least 60 s }';
  const told = (time: string) =>
    proofOf([machine, rule, card(`step set cap closed ${lanes(time)}`)].join('\n')).proof.rules.length;
  expect([told('60 s'), told('59 s')]).toEqual([0, 1]);
});

test('time within a run in a lane is asked for before its end, and no other lane adds to it', () => {
  const rule = 'rule r "R" { while lid open require lid open for at most 60 s }';
  const told = (own: string) => {
    const { proof, at } = proofOf(
      [machine, rule, card(beside(`step run lid open for ${own}`, 'step wait 60 s'))].join('\n'),
    );
    return proof.rules.map(({ place }) => at(place));
  };
  expect(told('60 s')).toEqual([]);
  expect(told('61 s')).toEqual(['run lid open for 61 s']);
});

test('a lane that leaves the others does so in its own time', () => {
  const safe = (require: string) => `rule safe "Safe" { at stop require ${require} }`;
  const lanes = beside('step { wait 10 s check "All well?" }', 'step "Look."');
  const told = (require: string) =>
    proofOf([machine, safe(require), card(`${openFor('50 s')} ${lanes}`)].join('\n')).proof.rules.length;
  expect([told('lid open for at least 60 s'), told('lid open for at most 60 s')]).toEqual([0, 0]);
  expect([told('lid open for at least 61 s'), told('lid open for at most 59 s')]).toEqual([1, 1]);
});

test('what is told behind lanes is no false alarm', () => {
  const rule = 'rule rested "Rested" { before drain open require lid open for at least 60 s }';
  const lanes = beside('step { set lid open wait 20 s }', 'step wait 10 s');
  const { proof } = proofOf([machine, rule, card(`${lanes} step { set drain open ${undo} }`)].join('\n'));
  expect(proof.rules.map(({ blended }) => blended)).toEqual([false]);
});

test('lanes within a lane come together by themselves', () => {
  const inner = beside('step wait 20 s', 'step wait 10 s');
  const lanes = (other: string) => `${openFor('30 s')} ${beside(`${inner} step wait 10 s`, `step wait ${other}`)}`;
  expect(broken('lid open for at least 60 s', lanes('1 s'))).toBe(false);
  expect(broken('lid open for at most 60 s', lanes('1 s'))).toBe(false);
  expect(broken('lid open for at most 60 s', lanes('31 s'))).toBe(true);
  expect(broken('lid open for at least 61 s', lanes('1 s'))).toBe(true);
});

test('a lane that leaves those within a lane does so in its own time', () => {
  const inner = beside('step wait 3 s', 'step { wait 10 s check "All well?" else finish }');
  const leaving = `procedure look() { ${inner} step wait 100 s }`;
  const told = (require: string) => {
    const rule = `rule rested "Rested" { before drain open require ${require} }`;
    const body = `${openFor('50 s')} ${beside('do look', 'step wait 1 s')} step { set drain open ${undo} }`;
    return proofOf([machine, rule, leaving, card(body)].join('\n')).proof.rules.length;
  };
  expect([told('lid open for at least 60 s'), told('lid open for at least 60.000001 s')]).toEqual([0, 1]);
});

test('what is left by a finish in a lane takes its time in that lane', () => {
  const inner = '{ step set lid open together { by one { step wait 60 s finish } by two { note "Stand back." } } }';
  const told = (require: string) => {
    const rule = `rule rested "Rested" { before drain open require ${require} }`;
    const lanes = beside(`do look step { wait 1 h set drain open ${undo} }`, 'step takes 0 s "Look."');
    return proofOf([machine, rule, `procedure look() ${inner}`, card(lanes)].join('\n')).proof.rules.length;
  };
  expect([told('lid open for at least 61 min'), told('lid open for at most 61 min')]).toEqual([0, 0]);
  expect([told('lid open for at least 62 min'), told('lid open for at most 60 min')]).toEqual([1, 1]);
});

test('what a check in one lane tells of a time is so for the others', () => {
  const check = beside('step { wait 5 s check lid closed for at least 60 s }', 'step wait 10 s');
  expect(broken('lid closed for at least 65 s', check)).toBe(false);
  expect(broken('lid closed for at least 66 s', check)).toBe(true);
});

test('the message says what time is wanted', () => {
  const rule = 'rule rested "Rested" { before drain open require lid open for at least 60 s }';
  const { proof } = proofOf(
    [machine, rule, card(`${openFor('9 s')} step { wait 0 s set drain open ${undo} }`)].join('\n'),
  );
  expect(proof.rules[0]?.unmet).toMatchObject([{ type: 'time', form: 'at least', state: 1 }]);
});

test('what one check of a time tells does not answer the other', () => {
  const after = (asked: string) => `step check ${asked}`;
  expect(ways('lid closed for at most 60 s', after('lid closed for at least 60 s')).at(-1)).toBe('passes fails');
  expect(ways('lid closed for at least 60 s', after('lid closed for at most 60 s')).at(-1)).toBe('passes fails');
  expect(
    ways('lid open for at most 60 s', `${openFor('10 s to 70 s')} step check lid open for at least 20 s`).at(-1),
  ).toBe('passes fails');
});

test('beside other lanes the one that moves it counts, wherever it stands', () => {
  const lanes = (own: string, other: string) =>
    `together { by one { step wait ${other} } by two { step { set lid open wait ${own} } } }`;
  expect(broken('lid open for at least 60 s', lanes('60 s', '1 s'))).toBe(false);
  expect(broken('lid open for at least 60 s', lanes('59 s', '59 s'))).toBe(true);
  expect(broken('lid open for at least 60 s', lanes('59.999999 s', '1 s'))).toBe(true);
});

test('of many questions of time in one condition each may be answered either way', () => {
  const questions = (seconds: number) =>
    Array.from({ length: 24 }, (_, index) => `lid closed for at least ${seconds + index} s`).join(' or ');
  expect(ways(questions(10), 'step { set lid open set lid closed wait 5 s to 60 s }')).toEqual(['passes fails']);
  expect(ways(questions(10), 'step { set lid open set lid closed wait 5 s }')).toEqual(['fails']);
  expect(ways(questions(10), 'step { set lid open set lid closed wait 60 s }')).toEqual(['passes']);
});

test('past the bound nothing is missed behind a check of how long something has been so', () => {
  const body = `if "Cold?" { step set cap open } else { step set cap closed }
    ${openFor('60 s')} step check lid open for at least 60 s else finish`;
  for (let bound = 1; bound <= 8; bound++) expect(broken('cap open', body, '', bound)).toBe(true);
  const atEnd = [machine, 'rule opened "Opened" { at end require cap open }', card(`${body} step "Look."`)].join('\n');
  for (let bound = 1; bound <= 16; bound++) expect(proofOf(atEnd, bound).proof.rules).toHaveLength(1);
});

test('of more times than are kept apart the longest and the shortest stand', () => {
  const waits = Array.from({ length: 20 }, (_, index) => `"Way ${index}" { step wait ${index + 1} s }`).join(' or ');
  const asked = (form: string) => ways(`lid open for ${form}`, `${openFor('0 s')} choose { ${waits} }`);
  expect(asked('at most 20 s')).toEqual(['passes']);
  expect(asked('at most 19 s')).toEqual(['passes fails']);
  expect(asked('at least 1 s')).toEqual(['passes']);
  expect(asked('at least 2 s')).toEqual(['passes fails']);
});

test('what is asked of time is asked as time passes, and told once', () => {
  const told = (asking: string, body: string) => {
    const { proof, at } = proofOf([machine, asking, card(body)].join('\n'));
    return [...proof.hazards, ...proof.rules].map(({ place }) => at(place));
  };
  const hot = 'hazard hot "heat" while lid open for at least 60 s { warning "Hot." }';
  const brief = 'rule brief "Brief" { while drain open require drain open for at most 60 s }';
  expect(told(hot, 'step { set lid open wait 30 s } step wait 31 s step wait 32 s step set lid closed')).toEqual([
    'wait 31 s',
  ]);
  expect(told(brief, 'step { set drain open wait 60 s } step wait 1 s step wait 2 s step set drain closed')).toEqual([
    'wait 1 s',
  ]);
});

test.each([
  ['rule r "R" { while lid open require lid open for at most 60 s }', 'run lid open for 61 s', 'run lid open for 61 s'],
  ['rule r "R" { while lid open require lid open for at most 60 s }', 'run lid open for 60 s', undefined],
  [
    'rule r "R" { while lid open for at least 60 s require drain open }',
    'run lid open for 60 s',
    'run lid open for 60 s',
  ],
  ['rule r "R" { while lid open for at least 60 s require drain open }', 'run lid open for 59 s', undefined],
  [
    'gauge heat "heat" in psi rule r "R" { while lid open require lid open for at most 60 s }',
    'run lid open until heat above 3 psi within 61 s',
    'run lid open until heat above 3 psi within 61 s',
  ],
])('%s: time within a run counts before its end, in “%s”', (rule, action, told) => {
  const { proof, at } = proofOf([machine, rule, card(`step ${action}`)].join('\n'));
  expect(proof.rules.map(({ place }) => at(place))).toEqual(told === undefined ? [] : [told]);
});

test('a need asks for times of what feeds it within a run', () => {
  const supply = 'supply water "water" { source tank when drain open for at most 60 s  link tank -> lid }';
  const needing = machine.replace('"the lid" normally closed', '"the lid" normally closed needs water while open');
  const fedFor = (time: string) =>
    proofOf([needing, supply, card(`step { set drain open run lid open for ${time} }`)].join('\n')).proof.notFed.length;
  expect([fedFor('60 s'), fedFor('61 s')]).toEqual([0, 1]);
});
