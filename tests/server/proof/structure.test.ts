/** What no path reaches, what none leaves, and what always or never passes. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'variant fit old, new',
  'item drain : valve "the drain valve" normally closed',
  'item cap : valve "the cap"',
  'gauge oil "oil" in psi { reads 0 to 100 }',
].join('\n');

const prove = (body: string) => proofOf(`${machine}\n${card(body)}`);

const unreachable = (body: string) => {
  const { proof, at } = prove(body);
  return proof.unreachable.map(({ place }) => at(place));
};

const endless = (body: string) => {
  const { proof, at } = prove(body);
  return proof.endless.map(({ place }) => at(place));
};

const asked = (body: string) => {
  const { proof } = prove(body);
  return proof.branches.map(
    ({ passes, fails }) => `${passes ? 'passes' : ''}${passes && fails ? ' ' : ''}${fails ? 'fails' : ''}`,
  );
};

test('of steps in a row that no path reaches, the first', () => {
  expect(unreachable('finish step "A." step "B."')).toEqual(['step "A."']);
  expect(unreachable('go to c step "A." step c: "B." finish step "D."')).toEqual(['step "A."', 'step "D."']);
  expect(unreachable('step "A." step "B."')).toEqual([]);
});

test('a branch that never passes leaves its steps unreached', () => {
  expect(unreachable('if drain open { step "A." } else { step "B." } step "C."')).toEqual(['step "A."']);
  expect(unreachable('if drain closed { step "A." } else { step "B." } step "C."')).toEqual(['step "B."']);
  expect(unreachable('step set drain open if drain open { step "A." } step set drain closed')).toEqual([]);
  expect(unreachable('if cap open { step "A." } else { step "B." }')).toEqual([]);
});

test('what follows a check that never passes', () => {
  expect(unreachable('step check drain open step "A."')).toEqual(['step "A."']);
  expect(unreachable('repeat at most 2 times until drain open { step "A." } step "B."')).toEqual(['step "B."']);
  expect(
    unreachable('together { by one { step check drain open step { record "It." } } by two { step "B." } }'),
  ).toEqual(['step']);
});

test('a step of only some machines is reached where it is on one of them', () => {
  expect(unreachable('step only fit old "A." step only fit new "B."')).toEqual([]);
});

test('a step of a loop that is left before it', () => {
  expect(unreachable('repeat 2 times { step "A." finish step "B." }')).toEqual(['step "B."']);
});

test('a loop that no path leaves', () => {
  expect(endless('step a: "A." go to a')).toEqual(['go to a']);
  expect(endless('step a: "A." if "Done?" { finish } go to a')).toEqual([]);
  expect(endless('step a: "A." step check "Well?" go to a')).toEqual([]);
  expect(endless('step a: "A." if drain open { finish } go to a')).toEqual(['go to a']);
  expect(endless('step a: "A." if cap open { finish } go to a')).toEqual(['go to a']);
  expect(endless('step a: set cap open if cap open { finish } go to a')).toEqual([]);
  expect(endless('step a: "A." if oil above 5 psi { finish } go to a')).toEqual([]);
  expect(endless('if "A?" { step a: "A." go to a } step "B."')).toEqual(['go to a']);
  expect(endless('repeat 3 times { step "A." }')).toEqual([]);
  expect(endless('step a: "A." repeat 3 times { step "B." } go to a')).toEqual(['go to a']);
});

test('what is asked may go as the states let it', () => {
  expect(asked('step check drain closed')).toEqual(['passes']);
  expect(asked('step check drain open')).toEqual(['fails']);
  expect(asked('step check cap open')).toEqual(['passes fails']);
  expect(asked('step check cap open step check cap open')).toEqual(['passes fails', 'passes']);
  expect(asked('step check cap open step check cap closed')).toEqual(['passes fails', 'fails']);
  expect(asked('step set cap open if cap open { step "A." }')).toEqual(['passes']);
  expect(asked('if cap open { step check cap open } else { step check cap open }')).toEqual([
    'passes fails',
    'passes',
    'fails',
  ]);
  expect(asked('if "A?" { step set cap open } else { step set cap closed } step check cap open')).toEqual([
    'passes fails',
  ]);
  expect(asked('step check cap open and drain open')).toEqual(['fails']);
  expect(asked('step check cap open or drain closed')).toEqual(['passes']);
  expect(asked('step check not cap open and drain closed')).toEqual(['passes fails']);
  expect(asked('step check any valve open')).toEqual(['passes fails']);
  expect(asked('step check every valve open')).toEqual(['fails']);
});

test('of several ways through one check, all count', () => {
  expect(asked('repeat 2 times { if cap open { step set cap closed } else { step set cap open } }')).toEqual([
    'passes fails',
  ]);
  expect(asked('repeat 2 times { step check drain closed step set drain open }')).toEqual(['passes fails']);
});

test('what holds after a loop holds after each number of rounds', () => {
  expect(asked('repeat at most 2 times until cap open { step "A." } step check cap open')).toEqual([
    'passes fails',
    'passes',
  ]);
  expect(asked('repeat 2 times { step set cap open } step check cap open')).toEqual(['passes']);
});

test('lanes: what one sets the other may find', () => {
  expect(
    asked('together { by one { step set drain open } by two { step check drain open } } step set drain closed'),
  ).toEqual(['passes fails']);
});

test('before you start: what is relied on and never checked', () => {
  const relied = (rule: string, body: string, fields = '') =>
    proofOf(
      [machine, 'item lid : valve "the lid" normally closed', `rule r "The rule" { ${rule} }`, card(body, fields)].join(
        '\n',
      ),
    ).proof.reliances.map(({ item, because, assumed }) => `${item.name}: ${because}${assumed ? ' (assumed)' : ''}`);
  const opens = 'step { set drain open set drain closed }';
  expect(relied('before drain open require lid closed', opens)).toEqual(['lid: The rule']);
  expect(relied('before drain open require lid closed', `step check lid closed ${opens}`)).toEqual([]);
  expect(relied('before drain open require lid closed', `step ensure lid closed ${opens}`)).toEqual([]);
  expect(relied('before drain open require lid open', opens)).toEqual([]);
  expect(relied('before drain open require lid closed', 'step "Look."')).toEqual([]);
  expect(relied('before drain open require lid closed', opens, 'assume lid closed because "It was shut."')).toEqual([
    'lid: It was shut. (assumed)',
  ]);
  expect(relied('before drain open require cap closed', opens)).toEqual([]);
});

test('before you start: for whose sake it is relied on', () => {
  const relied = (equipment: string, body: string) =>
    proofOf([machine, equipment, card(body)].join('\n')).proof.reliances.map(
      ({ item, because, from }) => `${item.name}: ${because} (${from})`,
    );
  const opens = 'step { set drain open set drain closed }';
  const lid = 'item lid : valve "the lid" normally closed';
  const guard = 'hazard hot "hot water" while drain open { warning "It is hot." protect lid closed }';
  expect(relied(`${lid} ${guard}`, `warning hot ${opens}`)).toEqual(['lid: hot water (hazard)']);
  const fed = 'supply air "air" { source cart when lid closed link cart -> horn }';
  const horn = 'item horn : valve "the horn" normally closed needs air while open';
  expect(relied(`${lid} ${horn} ${fed}`, 'step { set horn open set horn closed }')).toEqual(['lid: air (supply)']);
});

test('past the bound everything may be, and the facts say that they are blended', () => {
  const many = Array.from({ length: 8 }, (_, n) => `item v${n} : valve "valve ${n}" normally closed`).join('\n');
  const open = Array.from({ length: 8 }, (_, n) => `if "Open ${n}?" { step set v${n} open }`).join('\n');
  const close = Array.from({ length: 8 }, (_, n) => `step set v${n} closed`).join('\n');
  const all = Array.from({ length: 8 }, (_, n) => `v${n} closed`).join(' and ');
  const told = (rule: string, bound: number) =>
    proofOf(
      [kinds, many, `rule r "R" { at end require ${rule} }`, card(`${open} ${close}`)].join('\n'),
      bound,
    ).proof.rules.map(({ blended }) => blended);
  expect(told(all, 100_000)).toEqual([]);
  expect(told(all, 100)).toEqual([]);
  expect(told(`${all} and v1 open`, 100_000)).toEqual([false]);
  const exact = proofOf([kinds, many, `rule r "R" { at end require (${all}) or v0 open }`, card(open)].join('\n'));
  const blended = proofOf(
    [kinds, many, `rule r "R" { at end require (${all}) or v0 open }`, card(open)].join('\n'),
    100,
  );
  expect(exact.proof.rules.map((one) => one.blended)).toEqual([false]);
  expect(blended.proof.rules.map((one) => one.blended)).toEqual([true]);
});

test('what is left otherwise than it belongs, or than it is said to be left', () => {
  const left = (body: string, fields = '') => {
    const { proof } = proofOf(
      `${kinds} kind pump { off, slow, fast } item feed : pump "the feed pump" normally off ${card(body, fields)}`,
    );
    return proof.leftChanged.map(({ item, left: states }) => states.map((state) => item.kind.states[state]?.name));
  };
  const set = (...states: string[]) => states.map((state) => `step set feed ${state}`).join(' ');
  expect(left(set('slow'))).toEqual([['slow']]);
  expect(left(set('slow'), 'leaves feed slow')).toEqual([]);
  expect(left(set('slow', 'off'), 'leaves feed slow')).toEqual([]);
  expect(left(set('slow', 'fast'), 'leaves feed slow')).toEqual([['fast']]);
});

test('how items are at a finish, on any path', () => {
  const { proof } = prove('if "A?" { step set drain open } step set cap open');
  expect(proof.atFinish.map(({ item, states }) => [item.name, states])).toEqual([
    ['drain', [0, 1]],
    ['cap', [1]],
  ]);
});

test('what no path reaches is no false alarm', () => {
  expect(prove('finish step "A."').proof.unreachable).toMatchObject([{ blended: false, path: [] }]);
});
