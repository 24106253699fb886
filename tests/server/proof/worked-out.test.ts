/** What is known of a gauge that is worked out from two others. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { numbers } from '../../support/numbers.ts';
import { card, kinds, proofOf } from './prove.ts';

const machine = [
  kinds,
  'item drain : valve "the drain valve" normally closed',
  'item lid : valve "the lid" normally closed',
].join('\n');

interface Gauges {
  readonly up?: string;
  readonly down?: string;
  readonly drop?: string;
  readonly sign?: '-' | '+';
}

const gauges = ({ up = '', down = '', drop = '', sign = '-' }: Gauges = {}) => `
gauge up "upstream" in psi ${up}
gauge down "downstream" in psi ${down}
gauge drop "pressure drop" in psi = up ${sign} down ${drop}`;

/** Whether the rule is broken where the drain is opened after these actions, and whether that hung on a reading nobody knows. */
function opened(require: string, actions: string, equipment = gauges()): 'kept' | 'unknown' | 'wrong' {
  const rule = `rule clean "Clean" { before drain open require ${require} }`;
  const undo = 'step { set drain closed set lid closed }';
  const { proof } = proofOf([machine, equipment, rule, card(`step { ${actions} set drain open } ${undo}`)].join('\n'));
  const [broken] = proof.rules;
  if (!broken) return 'kept';
  const [unmet] = broken.unmet;
  return unmet?.type === 'reading' && unmet.known ? 'wrong' : 'unknown';
}

test.each([
  ['drop at most 10 psi', 'read up at most 50 psi read down at least 40 psi', 'kept'],
  ['drop at most 10 psi', 'read up at most 50 psi read down at least 39 psi', 'unknown'],
  ['drop at most 10 psi', 'read up at most 50 psi', 'unknown'],
  ['drop at most 10 psi', 'read up at most 50 psi read down at most 40 psi', 'unknown'],
  ['drop below 10 psi', 'read up at most 50 psi read down at least 40 psi', 'unknown'],
  ['drop below 10 psi', 'read up below 50 psi read down at least 40 psi', 'kept'],
  ['drop below 10 psi', 'read up at most 50 psi read down above 40 psi', 'kept'],
  ['drop at least 10 psi', 'read up at least 50 psi read down at most 40 psi', 'kept'],
  ['drop at most 10 psi', 'read up above 50 psi read down at most 40 psi', 'wrong'],
  ['drop exactly 10 psi', 'read up exactly 50 psi read down exactly 40 psi', 'kept'],
  ['not drop above 10 psi', 'read up at most 50 psi read down at least 40 psi', 'kept'],
  ['drop at most 10 psi', 'read up at most 5 bar read down at least 435 kPa', 'kept'],
] as const)('%s, after %s: %s', (require, actions, expected) => {
  expect(opened(require, actions)).toBe(expected);
});

test('a sum is worked out too', () => {
  const sum = gauges({ sign: '+' });
  expect(opened('drop at most 90 psi', 'read up at most 50 psi read down at most 40 psi', sum)).toBe('kept');
  expect(opened('drop at most 90 psi', 'read up at most 50 psi read down at least 40 psi', sum)).toBe('unknown');
});

test('what was read of the gauge itself adds to what is worked out', () => {
  const both = 'read up at most 50 psi read down at least 40 psi read drop at least 5 psi';
  expect(opened('drop 5 psi to 10 psi', both)).toBe('kept');
  expect(opened('drop 6 psi to 10 psi', both)).toBe('unknown');
});

test('what was read of the gauge itself counts where the readings cannot all be true', () => {
  const odd = 'read drop at least 20 psi read up at most 50 psi read down at least 40 psi';
  expect(opened('drop at least 15 psi', odd)).toBe('kept');
});

test('it is worked out through several', () => {
  const three = `${gauges()}
gauge ram "ram pressure" in psi
gauge net "net drop" in psi = drop - ram`;
  const known = 'read up at most 50 psi read down at least 40 psi read ram at least 4 psi';
  expect(opened('net at most 6 psi', known, three)).toBe('kept');
  expect(opened('net below 6 psi', known, three)).toBe('unknown');
});

test('a reading that failed tells what it left', () => {
  const step = 'if up above 50 psi { stop "Report it." } if down below 40 psi { stop "Report it." }';
  const rule = 'rule clean "Clean" { before drain open require drop at most 10 psi }';
  const body = `${step} step { set drain open set drain closed }`;
  expect(proofOf([machine, gauges(), rule, card(body)].join('\n')).proof.rules).toEqual([]);
});

test('of two temperatures it is a difference in either unit', () => {
  const temperatures = 'gauge hot "hot" in degC gauge cold "cold" in degF gauge rise "rise" in degC = hot - cold';
  const after = (cold: number) =>
    opened('rise at most 10 degC', `read hot at most 20 degC read cold at least ${cold} degF`, temperatures);
  expect(after(50)).toBe('kept');
  expect(after(49)).toBe('unknown');
});

test('a limit by a gauge that is worked out takes the row that the two select', () => {
  const rows = `${gauges()} gauge oil "oil" in psi { limit start by drop { at most 10 psi: at least 5 psi, above 10 psi: at least 30 psi } }`;
  const known = 'read oil at least 5 psi read up at most 50 psi';
  expect(opened('oil in start', `${known} read down at least 40 psi`, rows)).toBe('kept');
  expect(opened('oil in start', `${known} read down at least 39 psi`, rows)).toBe('unknown');
});

describe('what is known ends', () => {
  const known = 'read up at most 50 psi read down at least 40 psi';

  test.each([
    ['with an action that moves either', {}, 'set lid open', 'unknown'],
    ['with an action that moves the first', { down: '{ moved by drain }' }, 'set lid open', 'unknown'],
    ['with an action that moves the second', { up: '{ moved by drain }' }, 'set lid open', 'unknown'],
    [
      'with no action that moves neither',
      { up: '{ moved by drain }', down: '{ moved by drain }' },
      'set lid open',
      'kept',
    ],
    ['with a time in which either may move', {}, 'wait 5 s', 'unknown'],
    [
      'with bringing it about elsewhere',
      { up: '{ moved by lid }', down: '{ moved by lid }' },
      'bring drop at least 5 psi',
      'unknown',
    ],
  ] as const)('%s', (_, moved, action, expected) => {
    expect(opened('drop at most 10 psi', `${known} ${action}`, gauges(moved))).toBe(expected);
  });

  test('where it was read itself and either of the two moves', () => {
    const read = (moved: Gauges, action: string) =>
      opened('drop at most 10 psi', `read drop at most 10 psi ${action}`, gauges(moved));
    const neither = { up: '{ moved by drain }', down: '{ moved by drain }' };
    expect(read({}, 'set lid open')).toBe('unknown');
    expect(read({ up: '{ moved by drain }' }, 'set lid open')).toBe('unknown');
    expect(read(neither, 'set lid open')).toBe('kept');
    expect(read({ ...neither, down: '{ moved by lid }' }, 'set lid open')).toBe('unknown');
    expect(read({ drop: '{ moved by drain }' }, 'set lid open')).toBe('kept');
    expect(read(neither, 'bring up at most 5 psi')).toBe('unknown');
  });
});

test('a check of what is worked out goes the only way that it can', () => {
  const { proof } = proofOf(
    [machine, gauges(), card('step { read up at most 50 psi read down at least 40 psi check drop above 10 psi }')].join(
      '\n',
    ),
  );
  expect(proof.branches.map(({ passes, fails }) => [passes, fails])).toEqual([
    [true, true],
    [true, true],
    [false, true],
  ]);
});

/** Bounds on the two and on their difference, against every pair of quarters. */
test('it is known exactly where every pair of readings agrees', () => {
  const ends = ['at least', 'at most', 'above', 'below'] as const;
  const bound = fc.tuple(fc.constantFrom(...ends), fc.integer({ min: 1, max: 6 }));
  const values = Array.from({ length: 161 }, (_, index) => index / 4 - 20);
  const holds = (value: number, [form, limit]: [string, number]) =>
    ({ 'at least': value >= limit, 'at most': value <= limit, above: value > limit, below: value < limit })[
      form
    ] as boolean;
  fc.assert(
    fc.property(bound, bound, bound, (up, down, drop) => {
      const said = ([form, limit]: [string, number]) => `${form} ${limit} psi`;
      const all = values
        .filter((value) => holds(value, up))
        .flatMap((one) => values.filter((value) => holds(value, down)).map((other) => holds(one - other, drop)));
      const expected = all.every((is) => is) ? 'kept' : all.some((is) => is) ? 'unknown' : 'wrong';
      expect(opened(`drop ${said(drop)}`, `read up ${said(up)} read down ${said(down)}`)).toBe(expected);
    }),
    { seed: 1, numRuns: 150 },
  );
});

test('a table of fourteen rows is known to the last', () => {
  const rows = numbers(14).map((n) => {
    const when = n === 14 ? `at least ${n} degC` : n === 1 ? `below 2 degC` : `${n} degC to ${n + 1} degC`;
    return `${when}: at least ${n} psi`;
  });
  const table = `gauge air "air" in degC gauge oil "oil" in psi { limit start by air { ${rows.join(', ')} } }`;
  expect(opened('oil in start', 'read air at least 14 degC read oil at least 14 psi', table)).toBe('kept');
  expect(opened('oil in start', 'read air at least 14 degC read oil at least 13 psi', table)).toBe('unknown');
});
