/** Small cards of which the answer hangs on one line of the engine each. */
import { describe, expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'kind tap { shut, wide, half }',
  'item drain : valve "the drain valve" normally closed',
  'item lid : valve "the lid" normally closed',
  'item cap : valve "the cap"',
  'item lamp-1 : lamp "the lamp"',
  'item horn : starter "the horn" normally off',
  'gauge oil "oil pressure" in psi { reads 0 to 100 }',
].join('\n');
const undo = 'set drain closed';

function prove(declared: string, body: string, fields = '', stateBound = 20_000) {
  return proofOf([machine, declared, card(body, fields)].join('\n'), stateBound);
}

function broken(rule: string, body: string, stateBound = 20_000): string[] {
  const { proof, at } = prove(`rule r "R" { ${rule} }`, body, '', stateBound);
  return proof.rules.map(({ place }) => at(place));
}

const asked = (body: string) =>
  prove('', body).proof.branches.map(
    ({ passes, fails }) => `${passes ? 'passes' : ''}${passes && fails ? ' ' : ''}${fails ? 'fails' : ''}`,
  );

describe('readings', () => {
  const either = 'step { check oil below 20 psi or oil above 80 psi';

  test('a check of two bounds tells that one of them holds, and not which', () => {
    expect(asked(`${either} check oil below 20 psi }`)).toEqual(['passes fails', 'passes fails']);
    expect(asked(`${either} check oil 20 psi to 80 psi }`)).toEqual(['passes fails', 'fails']);
    expect(broken('while oil below 20 psi require lid open', `${either} set cap closed }`)).toEqual([]);
  });
});

describe('what tells a path nothing of a reading', () => {
  const rule = 'before drain open require oil above 50 psi';

  test('that it was watched in passing', () => {
    const run = 'run lid open for 5 s { watch oil stays above 50 psi }';
    expect(broken(rule, `step { ${run} set drain open ${undo} }`)).toEqual(['set drain open']);
    expect(broken(rule, `step { ${run} check oil above 50 psi set drain open ${undo} }`)).toEqual([]);
  });

  test('that something has moved by itself which hangs on it', () => {
    const relay = 'item relay : breaker "the relay" normally closed may pulled when oil above 50 psi';
    const { proof } = prove(
      `${relay} rule r "R" { ${rule} }`,
      `step { wait 1 s check relay pulled set drain open ${undo} }`,
    );
    expect(proof.rules).toHaveLength(1);
  });
});

describe('how long something has been so', () => {
  const rested = 'before drain open require lid open for at least 60 s';
  const opens = `step { wait 0 s set drain open ${undo} }`;

  test('a check of a time narrows what later checks of it find, from either side', () => {
    const twice = (first: string, second: string) => asked(`step { wait 0 s check ${first} check ${second} }`).at(-1);
    expect(twice('lid closed for at most 60 s', 'lid closed for at most 60 s')).toBe('passes');
    expect(twice('not lid closed for at least 60 s', 'lid closed for at most 60 s')).toBe('passes');
    expect(twice('not lid closed for at least 60 s', 'lid closed for at least 60 s')).toBe('fails');
  });

  test('in lanes the time of a run counts', () => {
    const lanes = (wait: string) =>
      `together { by one { step { set lid open wait ${wait} run lid open for 10 s } } by two { step wait 1 s } } ${opens}`;
    expect(broken(rested, lanes('50 s'))).toEqual([]);
    expect(broken(rested, lanes('49 s'))).toEqual(['set drain open']);
  });

  test('rounds that nothing counts come to an end in the proof', () => {
    const rounds = 'step takes 0 s set lid open step again: wait 1 s if "Again?" { go to again }';
    expect(broken(rested, `${rounds} ${opens}`)).toEqual(['set drain open']);
  });

  test('what an item is set to it was for long, or is only now', () => {
    const rule = 'before drain open require cap open for at least 10 s or cap open for at most 5 s';
    expect(broken(rule, `step { wait 20 s set cap open set drain open ${undo} }`)).toEqual([]);
    expect(broken(rule, `step { wait 9 s set cap open set drain open ${undo} }`)).toEqual(['set drain open']);
  });

  test('beside other lanes their moves take no time of it, not even after it began', () => {
    const lanes = (own: string) =>
      `together { by one { step { check lid open wait 100 s } } by two { step { set lid open wait ${own} } } } ${opens}`;
    expect(broken(rested, lanes('60 s'))).toEqual([]);
    expect(broken(rested, lanes('59.999999 s'))).toEqual(['set drain open']);
  });

  test('what may have been broken already is not told again when a time runs out', () => {
    const late = 'while cap open or lid open for at least 60 s require lid open for at least 100 s';
    expect(broken(late, 'step { set lid open wait 30 s wait 40 s }')).toEqual(['set lid open']);
    expect(broken(late, 'step { set cap closed set lid open wait 30 s wait 40 s }')).toEqual(['wait 40 s']);
    const rule = 'while drain closed require cap closed and lid open for at most 60 s';
    expect(broken(rule, 'step { set lid open wait 30 s wait 40 s }')).toEqual(['set lid open']);
    expect(broken(rule, 'step { set cap closed set lid open wait 30 s wait 40 s }')).toEqual([
      'set cap closed',
      'wait 40 s',
    ]);
  });
});

describe('past the bound on places', () => {
  test('as many places as the bound allows are told apart', () => {
    const blended = (bound: number) =>
      prove(
        'rule r "R" { before drain open require lid closed }',
        `step set lid open step set drain open`,
        '',
        bound,
      ).proof.rules.map((one) => one.blended);
    expect(blended(1)).toEqual([true]);
    expect(blended(2)).toEqual([false]);
  });

  test('a shorter time that comes to a place later is told behind it', () => {
    const ways = 'if "A?" { step wait 10 s } else { step { wait 1 s wait 1 s wait 1 s wait 3 s } }';
    const body = `step { set lid open wait 0 s } ${ways} step { wait 50 s wait 0 s set drain open ${undo} }`;
    for (const bound of [1, 3, 5, 20])
      expect(broken('before drain open require lid open for at least 60 s', body, bound)).toEqual(['set drain open']);
  });

  test('a false alarm is told as one that may be', () => {
    const either = 'if "A?" { step set cap open, lid open } else { step set cap closed, lid closed }';
    const body = `${either} if cap open { if lid closed { step { set drain open ${undo} } } }`;
    const told = (bound: number) =>
      prove('rule r "R" { before drain open require horn cranking }', body, '', bound).proof.rules;
    expect(told(100)).toEqual([]);
    for (const bound of [1, 2, 3, 4, 5]) expect(told(bound).map(({ blended }) => blended)).toEqual([true]);
  });

  test('what comes to a place later is told behind it too', () => {
    const late = 'if "A?" { step set lid closed step set lid open step set lid closed step set lid open }';
    const rule = 'before drain open require lid closed';
    expect(broken(rule, `${late} step set lid closed`, 1)).toEqual([]);
    expect(broken(rule, `${late} step { set cap open set drain open ${undo} }`, 1)).toEqual(['set drain open']);
  });

  test('rounds are counted', () => {
    const rounds = (times: number) =>
      `repeat ${times} times { step { set lid open set lid closed } } step { set drain open ${undo} } `;
    expect(broken('before drain open require lid closed', rounds(3), 1)).toEqual([]);
    const waits = (times: number) =>
      `step takes 0 s set lid open repeat ${times} times { step wait 20 s } step { wait 0 s set drain open ${undo} }`;
    const rested = 'before drain open require lid open for at least 60 s';
    for (const bound of [1, 3, 5, 20]) {
      expect(broken(rested, waits(3), bound)).toEqual([]);
      expect(broken(rested, waits(2), bound)).toEqual(['set drain open']);
    }
  });
});

describe('a wait until something is so is asked when it is over, and no other lane comes between', () => {
  const relay = (when: string) => `item relay : breaker "the relay" normally closed may pulled when lid ${when}`;
  const tripped = (when: string, waits: string, other: string, fields = '') => {
    const rule = 'rule r "R" { before drain open require relay closed }';
    const body = `together { by one { ${waits} } by two { step set lid ${other} } }`;
    return prove(`${relay(when)} ${rule}`, body, fields).proof.rules.length > 0;
  };

  test('where it came about', () => {
    const waits = 'step { wait until lid open within 5 s set drain open }';
    expect(tripped('closed', waits, 'open')).toBe(false);
    expect(tripped('open', waits, 'open')).toBe(true);
  });

  test('where it did not', () => {
    const waits =
      'step wait until lid open within 5 s else go to vain go to done step vain: set drain open step done: "Done."';
    expect(tripped('open', waits, 'closed', 'assume lid open')).toBe(false);
    expect(tripped('closed', waits, 'closed', 'assume lid open')).toBe(true);
  });
});

test('what is asked before a supply reaches something is asked of each item that lets it through', () => {
  const supply = 'supply power "power" { source cap when cap closed link cap -> drain when lid open }';
  const rule = 'rule ready "Ready" { before power reaches drain require horn cranking }';
  const { proof, at } = prove(`${supply} ${rule}`, 'step { set cap open set lid open set cap closed set lid closed }');
  expect(proof.rules.map(({ place }) => at(place))).toEqual(['set cap closed']);
});

describe('what mends a break', () => {
  const supply = (source: string, link = '') =>
    `supply power "power" { source cap when ${source} link cap -> drain ${link} } rule fed "Fed" { before lid open require power reaches drain }`;
  const mends = (source: string, link?: string) =>
    prove(supply(source, link), 'step { set lid open set lid closed }').proof.rules.map(({ mend }) =>
      mend?.map(({ item, state }) => `${item.name} ${item.kind.states[state]?.name}`).sort(),
    );

  test('an item of which nothing is known may be set to any of its states', () => {
    expect(mends('cap closed')).toEqual([['cap closed']]);
    expect(mends('drain open', 'when cap closed')).toEqual([['cap closed', 'drain open']]);
  });

  test('what is only seen cannot be set: a check is a mend before an action, and none while something lasts', () => {
    expect(mends('lamp-1 lit')).toEqual([['lamp-1 lit']]);
    const lasting = supply('lamp-1 lit').replace('before lid open', 'while lid open');
    const { proof } = prove(lasting, 'step { set lid open set lid closed }');
    expect(proof.rules.map(({ mend }) => mend)).toEqual([undefined]);
  });

  test('what is always fed cannot be cut off', () => {
    const always =
      'supply power "power" { source cap link cap -> drain } rule cut "Cut" { before lid open require not power reaches drain }';
    const { proof } = prove(always, 'step { set lid open set lid closed }');
    expect(proof.rules.map(({ mend }) => mend)).toEqual([undefined]);
  });

  test('the item that needs the supply is left alone', () => {
    const needs =
      'item pump : starter "the pump" normally off needs power while cranking supply power "power" { source cap when pump off link cap -> pump }';
    const { proof } = prove(needs, 'step { set pump cranking set pump off }');
    expect(proof.notFed.map(({ mend }) => mend)).toEqual([undefined]);
  });
});

describe('what of a requirement fails', () => {
  const parts = ['tip', 'top', 'vent'].map((name) => `item ${name} : valve "the ${name}"`).join(' ');
  const wrong = (rule: string, before = '') =>
    prove(`${parts} rule r "R" { ${rule} }`, `${before} step { set drain open ${undo} }`)
      .proof.rules[0]?.unmet.map((term) => (term.type === 'item' ? term.item.name : term.type))
      .join(' ');

  test.each(['before drain open', 'while drain open', 'at end', 'at stop'])(
    '%s: all that may be wrong, and not what is right',
    (when) => {
      const stops = 'if "Bad?" { stop "Call." }';
      for (const require of ['cap closed and tip closed', 'not cap open and not tip open']) {
        expect(wrong(`${when} require ${require}`, stops)).toBe('cap tip');
        expect(wrong(`${when} require ${require}`, `step set cap closed ${stops}`)).toBe('tip');
        expect(wrong(`${when} require ${require}`, `step set tip closed ${stops}`)).toBe('cap');
      }
    },
  );

  test('what must not be so and is', () => {
    expect(wrong('before drain open require not cap closed', 'step set cap closed')).toBe('cap');
  });

  test('the time only where the state is right', () => {
    const rule = 'before drain open require cap closed for at least 10 s';
    expect(wrong(rule)).toBe('cap');
    expect(wrong(rule, 'step set cap closed')).toBe('time');
  });

  test('of the ways in which it may fail, the one in which most does', () => {
    const rule = 'before drain open require (cap closed or tip closed or top closed) and vent closed';
    expect(wrong(rule)).toBe('cap tip top vent');
    expect(wrong(rule, 'step set cap closed')).toBe('vent');
  });
});

describe('what is relied on', () => {
  test('each rule by itself', () => {
    const rules =
      'rule lid-shut "Lid shut" { before drain open require lid closed } rule quiet "Quiet" { before cap open require horn off }';
    const { proof } = prove(rules, `step { set drain open ${undo} set cap open }`);
    expect(proof.reliances.map(({ item, because }) => `${item.name}: ${because}`)).toEqual([
      'lid: Lid shut',
      'horn: Quiet',
    ]);
  });
});

describe('what is left changed', () => {
  test('what a card assumes out of its normal state, whatever it leaves of others', () => {
    const left = (fields: string) =>
      prove('', 'step set cap open', fields).proof.leftChanged.map(({ item }) => item.name);
    expect(left('assume drain open leaves lid open')).toEqual(['drain']);
    expect(left('assume drain open leaves drain open')).toEqual([]);
  });

  test('of an item that may go by itself, not the states in which it belongs', () => {
    const left = (normal: string, leaves: string) => {
      const tap = `item tap-1 : tap "the tap" normally ${normal} may ${normal} may ${leaves}`;
      const { proof } = prove(tap, 'step { set tap-1 half wait 1 s }', `leaves tap-1 ${leaves}`);
      return proof.leftChanged.map(({ left }) => left);
    };
    expect(left('wide', 'shut')).toEqual([[2]]);
    expect(left('shut', 'wide')).toEqual([[2]]);
  });

  test('at each finish, the nearest first', () => {
    const { proof, at } = prove('', 'step set lid open if "A?" { finish } step "Look."');
    expect(proof.leftChanged.map(({ finishes }) => finishes.map(at))).toEqual([['finish', 'trial']]);
  });
});

describe('noise', () => {
  const noise = 'hazard noise "noise" while horn cranking { level 90 dBA warning "Noise." }';
  const doses = (body: string, fields = '') =>
    prove(noise, body, fields).proof.doses.map(
      ({ role, percent, atLeast }) => `${role.name} ${atLeast ? 'at least ' : ''}${Math.round(percent)}`,
    );

  test('rounds of which nothing else is to be known', () => {
    const rounds = 'step again: by one { wait 9 h } go to again';
    expect(doses(rounds, 'assume horn cranking')[0]).toMatch(/^one at least/);
    expect(doses(rounds)).toEqual([]);
  });

  test('the shortest time counts', () => {
    const whileOn = (body: string) =>
      `step by one takes 0 s set horn cranking step by one ${body} step by one takes 0 s set horn off`;
    expect(doses(whileOn('wait 8 h'))).toEqual([]);
    expect(doses(`${whileOn('{ wait 8 h wait 0.000001 s }')}`)[0]).toBe('one 100');
  });
});

describe('time', () => {
  test('where a lane always leaves, the end of the others is not waited for', () => {
    const lanes = 'together { by one { step wait 100 s } by two { step wait 1 s finish } } step wait 50 s';
    const { least, most } = prove('', lanes).proof.time;
    expect([least.valueOf(), most?.valueOf()]).toEqual([1, 1]);
  });
});

describe('duties', () => {
  const duty = (text: string, body: string) =>
    prove(`item motor : starter "the motor" normally off { duty cranking at most ${text} }`, body).proof.duties.map(
      ({ sort, worst, count, path }) => ({ told: `${sort} ${worst?.valueOf() ?? 'any'} (${count})`, way: path.length }),
    );
  const run = 'run motor cranking for 10 s';

  test.each([
    [10, 7, 'open'],
    [7, 10, 'open'],
    [10, 7, 'closed'],
    [7, 10, 'closed'],
  ])(
    'the shortest rest after as many runs counts, beside a shorter one after fewer: %i s or %i s, %s',
    (one, two, first) => {
      const [twice, once] = [`if "B?" { step wait ${one} s } else { step wait ${two} s }`, 'step wait 5 s'];
      const [wait, otherwise] = first === 'open' ? [twice, once] : [once, twice];
      const runs = `if "Two?" { step { set lid open ${run} wait 1 s } } step ${run}`;
      const body = `${runs} if lid ${first} { ${wait} } else { ${otherwise} } step ${run}`;
      expect(duty('2 times, then rest 1 h', body).map(({ told }) => told)).toEqual(['too-often 7 (3)']);
    },
  );

  test('another lane may have opened a way that leads to a run', () => {
    const lanes = (other: string) =>
      `together { by one { if lid open { step run motor cranking for 70 s } } by two { step { ${other} } } } step { wait 1 s set lid closed }`;
    expect(duty('60 s', lanes('set lid open')).map(({ told }) => told)).toEqual(['too-long 70 (undefined)']);
    expect(duty('60 s', lanes('set cap open'))).toEqual([]);
  });

  test('the way to a run without end goes round once', () => {
    const body =
      'step takes 0 s set motor cranking step again: wait 20 s if "Again?" { go to again } step set motor off';
    const [one] = duty('60 s', body);
    expect(one?.told).toMatch(/^unbounded any/);
    expect(one?.way).toBeLessThan(8);
  });

  test('seventy ways that come together are told apart', () => {
    const ways = (from: number, step: number) =>
      Array.from({ length: 70 }, (_, index) => `"Way ${index}" { step wait ${from + step * index} s }`).join(' or ');
    const body = (from: number, step: number) =>
      `step takes 0 s set motor cranking choose { ${ways(from, step)} } if "Long?" { step takes 0 s set motor off } else { step takes 0 s set motor off }`;
    expect(duty('70 s', body(1, 1))).toEqual([]);
    expect(duty('70 s', body(70, -1))).toEqual([]);
  });
});
