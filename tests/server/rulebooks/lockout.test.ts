/** 29 CFR 1910.147: six steps to make a machine dead, in all their orders, with one left out, and on the supply graph. */
import { describe, expect, test } from 'vitest';
import { findingsOf } from '../../support/check.ts';

const machine = `use "std:lockout"
item saw    : lockout-machine "the saw"                normally running
item mains  : energy-isolator "the mains switch"       normally on
item spring : stored-energy   "the spring of the brake" normally stored
item blade  : danger-zone     "the blade"              normally guarded
supply force "force" {
  source grid
  source spring when spring stored
  link grid -> blade   when mains on
  link spring -> blade
}
`;

/** The steps of application, in the order of paragraph (d). */
const steps = {
  'prepare-first': 'lockout-preparation done',
  'shut-down-first': 'saw shut-down',
  'off-before-lock': 'mains off',
  'lock-before-relief': 'mains locked',
  'no-energy': 'spring relieved',
  'prove-first': 'blade proved',
};
const sequence = Object.values(steps);

/** The rules that are broken when the blade is reached after these steps. */
function broken(states: readonly string[]): ReadonlySet<string | undefined> {
  const lines = [...states, 'blade open'].map((state) => `  step set ${state}`);
  const card = `card c "C" {\n  number "1" revision "A" crew fitter "Fitter"\n${lines.join('\n')}\n}`;
  return new Set(findingsOf(machine + card, { only: ['safety.rule'] }).map(({ rule }) => rule));
}

function* orders(of: readonly string[]): Generator<readonly string[]> {
  if (of.length === 0) yield [];
  for (const first of of) for (const rest of orders(of.filter((one) => one !== first))) yield [first, ...rest];
}

describe('the six steps of application', () => {
  test('of all 720 orders one passes', () => {
    const all = [...orders(sequence)];
    expect(all).toHaveLength(720);
    expect(all.filter((order) => broken(order).size === 0)).toEqual([sequence]);
  });

  test.each(Object.entries(steps))('%s is told when its step is left out, and with no other', (rule, left) => {
    expect(broken(sequence.filter((state) => state !== left))).toContain(rule);
    const others = sequence.filter((state) => state !== left && state !== 'blade proved' && state !== 'mains locked');
    for (const other of others) expect(broken(sequence.filter((state) => state !== other))).not.toContain(rule);
  });
});

describe('isolation is proved on the supply', () => {
  const zone = (supply: string, steps: string) => `use "std:lockout"
item saw     : lockout-machine "the saw" normally running
item mains   : energy-isolator "the mains switch" normally on
item lights  : energy-isolator "the switch of the lights" normally on
item spring  : stored-energy   "the spring" normally relieved may stored
item blade   : danger-zone     "the blade" normally guarded
${supply}
card c "C" {
  number "1" revision "A" crew fitter "Fitter"
  step { set lockout-preparation done   set saw shut-down   set mains off, mains locked }
${steps}
}`;
  const behind = `supply force "force" {
  source grid   source light-board   source spring when spring stored
  link grid -> motor when mains on   link light-board -> motor when lights on   link motor -> blade
  link spring -> blade
}`;
  const only = { only: ['safety.rule', 'name.unknown'] };

  test('a feed from behind is told, with the switch that is left on', () => {
    const found = findingsOf(zone(behind, '  step set blade proved'), only);
    expect(found.map(({ rule, message }) => [rule, message])).toEqual([
      ['no-energy', expect.stringContaining('the switch of the lights to off')],
    ]);
  });

  test('what fills again by itself is told while hands are inside, at the next step', () => {
    const found = findingsOf(
      zone(
        behind,
        '  step set lights off, lights locked\n  step set spring relieved, blade proved\n  step set blade open\n  step "Change it."',
      ),
      only,
    );
    expect(found.map(({ rule }) => rule)).toContain('stays-dead');
  });

  test('a source without a switch is cut by nothing', () => {
    const found = findingsOf(
      zone('supply force "force" { source spillway   link spillway -> blade }', '  step set blade proved'),
      only,
    );
    expect(found.map(({ rule }) => rule)).toEqual(['no-energy']);
  });

  test('a zone that no supply leads to is not dead: nobody has drawn what moves it', () => {
    const found = findingsOf(
      zone('supply force "force" { source grid   link grid -> saw }', '  step set blade proved'),
      only,
    );
    expect(found.map(({ code, message }) => [code, message])).toEqual([
      ['name.unknown', expect.stringContaining('No supply leads to the blade')],
    ]);
  });
});

test('a machine that is tested with its guard open, and a second time in it without all steps anew', () => {
  const lines = [...sequence, 'blade open', 'mains unlocked', 'mains on', 'mains off', 'mains locked', 'blade cleared'];
  expect(broken(lines)).toContain('stays-dead');
  expect(broken([...sequence, 'blade open', 'blade cleared', 'blade guarded'])).toContain('prove-first');
});

describe('who locks unlocks', () => {
  const card = (between: string) => `${machine}card c "C" {
  number "1" revision "A" crew early "Early shift", late "Late shift"
  step by early { set lockout-preparation done   set saw shut-down   set mains off, mains locked }
  ${between}
  step by late set everybody-clear done, mains unlocked
}`;
  const only = { only: ['lockout.other-hand'] };

  test('without a hand-over the late shift does not take off the lock of the early one', () => {
    expect(findingsOf(card(''), only)).toHaveLength(1);
  });
  test('with one it does', () => {
    expect(findingsOf(card('step by early set lock-hand-over done'), only)).toEqual([]);
  });
});

describe('who may have put the lock on that is taken off', () => {
  const early = 'step by early set mains locked';
  const late = 'step by late set mains locked';
  const unlocked = 'step by late set mains unlocked';
  const mayShutDown = 'if "Is it off?" { step set saw shut-down }';
  const told = (steps: string) =>
    findingsOf(
      `${machine}variant fit a1, b1
procedure lock() { ${early} if "Done?" { finish } ${late} }
card c "C" { number "1" revision "A" crew early "Early shift", late "Late shift" ${steps} }`,
      { only: ['lockout.other-hand'] },
    );

  test.each([
    ['on one way of a branch', `if "A?" { ${early} } else { ${late} } ${unlocked}`],
    ['on the other way', `if "A?" { ${late} } else { ${early} } ${unlocked}`],
    ['on a way that is chosen', `choose { "a" { ${early} } or "b" { ${late} } } ${unlocked}`],
    ['where another one need not come', `${early} if "A?" { ${late} } ${unlocked}`],
    ['where the locks need not be handed over', `${early} if "A?" { step set lock-hand-over done } ${unlocked}`],
    [
      'where a jump leaves another one out',
      `${early} step check "A?" else go to x ${late} step x: "Look." ${unlocked}`,
    ],
    ['on the way back', `step x: "Look." if "A?" { ${unlocked} } ${early} if "B?" { go to x } ${late}`],
    ['in the round before', `repeat 2 times { if "A?" { ${unlocked} } ${early} } ${late}`],
    [
      'where what is kept fails',
      `stage "A" { ${early} ${mayShutDown} keep saw running else go to x ${late} } stage "B" { step x: "Look." ${unlocked} }`,
    ],
    ['by a step that mends', `${late} step check "A?" else { ${early} } ${unlocked}`],
    ['in another lane', `together { by early { step set mains locked } by late { step "Look." } } ${unlocked}`],
    ['in what is left early', `do lock ${unlocked}`],
    ['before a stop', `${early} step check "A?" ${late} stage "S" when stopped { ${unlocked} }`],
    ['on some machines', `${early} step by late only fit a1 set mains locked ${unlocked}`],
  ])('is told %s', (_, steps) => {
    expect(told(steps).map(({ message }) => message)).toEqual([expect.stringContaining('Early shift put it on')]);
  });

  test.each([
    ['what stands on both ways', `${early} if "A?" { ${late} } else { ${late} } ${unlocked}`],
    ['what stands behind both', `if "A?" { ${early} } else { ${late} } ${late} ${unlocked}`],
    ['a way that leads elsewhere', `${late} if "A?" { ${early} stop "Call." } ${unlocked}`],
    ['each round', `${early} repeat 2 times { ${late} } ${unlocked}`],
    [
      'what is on another machine',
      `step by early only fit a1 set mains locked step by late only fit b1 { set mains locked set mains unlocked }`,
    ],
    [
      'a question that is asked twice',
      `${mayShutDown} if saw running { ${late} } else { ${early} } if saw running { ${unlocked} } else { step by early set mains unlocked }`,
    ],
    ['what is kept and cannot fail', `${early} keep saw running else go to x ${late} step x: "Look." ${unlocked}`],
    ['a lock that is off again', `${early} step by early set mains unlocked ${unlocked}`],
  ])('is nobody else with %s', (_, steps) => expect(told(steps)).toEqual([]));

  test('says on which machines, and where the lock is put on', () => {
    const [finding] = told(`${early} step by late only fit a1 set mains locked ${unlocked}`);
    expect(finding?.message).toContain('This is so for fit b1.');
    expect(finding?.path.map(({ text }) => text)).toEqual(['Early shift puts the lock on the mains switch']);
  });
});
