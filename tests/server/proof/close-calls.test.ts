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
      `together { by one { step { check lid open wait 100 s } } by two { step { wait 100 s set lid open wait ${own} } } } ${opens}`;
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

  test('rounds are counted within the bound, and past it told as what may be a false alarm', () => {
    const rounds = (times: number) =>
      `repeat ${times} times { step { set lid open set lid closed } } step { set drain open ${undo} } `;
    expect(broken('before drain open require lid closed', rounds(3), 1)).toEqual([]);
    const waits = (times: number) =>
      `step takes 0 s set lid open repeat ${times} times { step wait 20 s } step { wait 0 s set drain open ${undo} }`;
    const rested = 'before drain open require lid open for at least 60 s';
    const told = (bound: number) => prove(`rule r "R" { ${rested} }`, waits(3), '', bound).proof.rules;
    expect(told(20)).toEqual([]);
    for (const bound of [1, 3, 5]) expect(told(bound).every(({ blended }) => blended)).toBe(true);
    for (const bound of [1, 3, 5, 20]) expect(broken(rested, waits(2), bound)).toEqual(['set drain open']);
  });
});

describe('past the bound, what is not known may be so, and what is known not to be so is not', () => {
  const ways = `if "A?" { step { set lid open read oil above 50 psi } } else { step { set lid closed read oil below 50 psi } }`;

  test('a rule for a reading is told where some paths have read it', () => {
    const rule = 'before drain open and oil above 50 psi require cap closed';
    for (const bound of [1, 20_000])
      expect(broken(rule, `${ways} step { set drain open ${undo} }`, bound)).toEqual(['set drain open']);
  });

  test('a stop is unsafe where the hazard may be there', () => {
    const unsafe = (condition: string, bound: number) =>
      prove(
        `hazard hot "heat" while ${condition} { warning "Hot." }`,
        `step { set drain open ${undo} } ${ways} stop "No."`,
        '',
        bound,
      ).proof.unsafeStops.map(({ blended }) => blended);
    for (const condition of ['lid open', 'oil above 50 psi']) {
      expect(new Set(unsafe(condition, 20_000))).toEqual(new Set([false]));
      expect(new Set(unsafe(condition, 1))).toEqual(new Set([true]));
    }
    expect(unsafe('drain open', 1)).toEqual([]);
  });
});
