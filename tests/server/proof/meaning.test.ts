/** What section 3 of the language says of paths, one example each. */
import { describe, expect, test } from 'vitest';
import { card, kinds, pathTold, proofOf } from './prove.ts';

const valve = 'item drain : valve "the drain valve" normally closed';
const starter = (duty: string) => `item starter-1 : starter "the starter" normally off { ${duty} }`;

const rulesBroken = (text: string) => {
  const { proof, at } = proofOf(text);
  return proof.rules.map(({ rule, place }) => `${rule.name}: ${at(place)}`);
};

const dutiesBroken = (text: string) =>
  proofOf(text).proof.duties.map(({ sort, worst }) => (worst === undefined ? sort : `${sort} ${worst.valueOf()} s`));

describe('states', () => {
  test('an unknown start breaks a rule at the first action, and the path says why', () => {
    const { proof, at } = proofOf(
      [
        kinds,
        'item cap : valve "the cap"',
        valve,
        'rule shut "Shut" { while drain open require cap closed }',
        card('step set drain open step set drain closed'),
      ].join('\n'),
    );
    expect(proof.rules.map(({ place }) => at(place))).toEqual(['set drain open']);
    expect(pathTold(proof.rules[0])).toEqual(['the cap may be open since the start']);
  });

  test('a passed check is known on the path that passed', () => {
    const rule = 'rule shut "Shut" { while drain open require cap closed }';
    expect(
      rulesBroken(
        [
          kinds,
          'item cap : valve "the cap"',
          valve,
          rule,
          card('step check cap closed step set drain open step set drain closed'),
        ].join('\n'),
      ),
    ).toEqual([]);
  });

  test('what is broken from the start is told once, at the first touch', () => {
    const rule = 'rule shut "Shut" { while lid open require drain open }';
    const text = [
      kinds,
      'item lid : valve "the lid" normally open',
      valve,
      rule,
      card('step "Look." step wait 1 s step wait 1 s'),
    ].join('\n');
    expect(rulesBroken(text)).toEqual(['shut: wait 1 s']);
  });

  test('what a lamp shows may change at each action, and is told once', () => {
    const rule = 'rule dark "Dark" { while drain open require lamp-1 dark }';
    const text = [
      kinds,
      'item lamp-1 : lamp "the lamp"',
      valve,
      rule,
      card('step set drain open step wait 1 s step set drain closed'),
    ].join('\n');
    expect(rulesBroken(text)).toEqual(['dark: set drain open']);
  });
});

describe('readings', () => {
  const gauge = 'gauge g "oil pressure" in psi { reads 0 to 100 limit normal 20 psi to 80 psi }';
  const rule = 'rule oil "Oil" { before drain open require g in normal }';

  test('a reading is known until something is done', () => {
    expect(
      rulesBroken(
        [kinds, valve, gauge, rule, card('step { read g in normal set drain open } step set drain closed')].join('\n'),
      ),
    ).toEqual([]);
    expect(
      rulesBroken(
        [
          kinds,
          valve,
          gauge,
          rule,
          card('step { read g in normal wait 1 s set drain open } step set drain closed'),
        ].join('\n'),
      ),
    ).toEqual(['oil: set drain open']);
  });

  test('what a gauge is moved by is all that ends it', () => {
    const moved = 'gauge g "oil pressure" in psi { reads 0 to 100 limit normal 20 psi to 80 psi moved by starter-1 }';
    expect(
      rulesBroken(
        [
          kinds,
          valve,
          starter(''),
          moved,
          rule,
          card('step { read g in normal wait 1 s set drain open } step set drain closed'),
        ].join('\n'),
      ),
    ).toEqual([]);
  });

  test('two checks that cannot both pass', () => {
    const { proof, at } = proofOf(
      [kinds, gauge, card('step { check g at least 60 psi check g at most 40 psi }')].join('\n'),
    );
    expect(proof.branches.filter(({ passes }) => !passes).map(({ place }) => at(place))).toEqual([
      'check g at most 40 psi',
    ]);
  });
});

describe('time', () => {
  const duty = 'duty cranking at most 60 s, then rest 4 min';

  test('a run may start and end in different steps', () => {
    const text = (wait: string) =>
      [
        kinds,
        starter(duty),
        card(`step set starter-1 cranking step wait ${wait} step takes 5 s set starter-1 off`),
      ].join('\n');
    expect(dutiesBroken(text('55 s'))).toEqual([]);
    expect(dutiesBroken(text('56 s'))).toEqual(['too-long 61 s']);
  });

  test('a run that a step of unknown length is part of has no end', () => {
    expect(
      dutiesBroken(
        [kinds, starter(duty), card('step set starter-1 cranking step "Look." step set starter-1 off')].join('\n'),
      ),
    ).toEqual(['unbounded']);
  });

  test('lanes have one clock: the rest goes on while the other lane works', () => {
    const text = (other: string) =>
      [
        kinds,
        starter(duty),
        card(
          `together { by one { step { run starter-1 cranking for 60 s wait 1 min } } by two { step wait ${other} } } step run starter-1 cranking for 60 s`,
        ),
      ].join('\n');
    expect(dutiesBroken(text('5 min'))).toEqual([]);
    expect(dutiesBroken(text('299 s'))).toEqual(['short-rest 239 s']);
  });

  test('how long something has been so', () => {
    const rule = 'rule cool "Cool" { before drain open require starter-1 off for at least 10 min }';
    const text = (wait: string) =>
      [
        kinds,
        valve,
        starter(''),
        rule,
        card(
          `step run starter-1 cranking for 5 s step wait ${wait} step { wait 0 s set drain open } step set drain closed`,
        ),
      ].join('\n');
    expect(rulesBroken(text('10 min'))).toEqual([]);
    expect(rulesBroken(text('9 min 59 s'))).toEqual(['cool: set drain open']);
  });

  test('the time of the card, and of each role', () => {
    const { proof } = proofOf(
      [
        kinds,
        valve,
        card('step by one takes 2 min to 5 min set drain open step by two takes 1 min set drain closed'),
      ].join('\n'),
    );
    expect([proof.time.least.valueOf(), proof.time.most?.valueOf()]).toEqual([180, 360]);
    expect(proof.timePerRole.map(({ role, time }) => [role.name, time.least.valueOf(), time.most?.valueOf()])).toEqual([
      ['one', 120, 300],
      ['two', 60, 60],
      ['three', 0, 0],
    ]);
  });
});

describe('supply', () => {
  const supply = `item cart : starter "the cart" normally off
    item tie : breaker "the tie" normally closed
    item feed : breaker "the feed" normally pulled
    item pump : starter "the pump" normally off needs power while cranking
    supply power "power" { source cart when cart cranking  link cart -> right when feed closed  link right <-> left when tie closed  link left -> pump }`;

  test('the finding names the fewest changes that feed it', () => {
    const { proof, at } = proofOf(
      [kinds, supply, card('step { set cart cranking run pump cranking for 1 s set cart off }')].join('\n'),
    );
    expect(
      proof.notFed.map(({ place, mend }) => [
        at(place),
        mend?.map(({ item, state }) => `${item.name} ${item.kind.states[state]?.name}`),
      ]),
    ).toEqual([['run pump cranking for 1 s', ['feed closed']]]);
  });

  test('isolation fails by the way round the back', () => {
    const rule = 'rule dead "Dead" { while lid open require not power reaches left }';
    const lid = 'item lid : valve "the lid" normally closed';
    const body = (isolate: string) =>
      card(
        `step { set feed closed set cart cranking ${isolate} set lid open set lid closed set cart off set feed pulled set tie closed }`,
      );
    expect(rulesBroken([kinds, supply, lid, rule, body('set tie pulled')].join('\n'))).toEqual([]);
    expect(rulesBroken([kinds, supply, lid, rule, body('')].join('\n'))).toEqual(['dead: set lid open']);
  });
});

describe('configurations', () => {
  test('a finding on some machines names them', () => {
    const text = [
      'variant unit 1 to 6',
      kinds,
      valve,
      'item lid : valve "the lid" normally closed',
      'rule first "First" { before drain open require lid open }',
      card('step only unit 1 to 2, 5 to 6 set lid open step set drain open step { set drain closed set lid closed }'),
    ].join('\n');
    expect(proofOf(text).proof.rules.map(({ configurations }) => configurations)).toEqual([['unit 3 to 4']]);
  });
});

describe('before you start', () => {
  test('a starting state is relied on where something breaks without it', () => {
    const text = [
      kinds,
      valve,
      'item lid : valve "the lid" normally closed',
      'rule shut "Shut" { while drain open require lid closed }',
      card('step set drain open step set drain closed'),
    ].join('\n');
    expect(proofOf(text).proof.reliances.map(({ item, because }) => [item.name, because])).toEqual([['lid', 'Shut']]);
  });

  test('a checked one is not', () => {
    const text = [
      kinds,
      valve,
      'item lid : valve "the lid" normally closed',
      'rule shut "Shut" { while drain open require lid closed }',
      card('step check lid closed step set drain open step set drain closed'),
    ].join('\n');
    expect(proofOf(text).proof.reliances).toEqual([]);
  });
});

test('a loop that no path leaves is told where it closes', () => {
  const { proof, at } = proofOf(
    [kinds, valve, card('step again: set drain open step set drain closed go to again')].join('\n'),
  );
  expect(proof.endless.map(({ place }) => at(place))).toEqual(['go to again']);
});
