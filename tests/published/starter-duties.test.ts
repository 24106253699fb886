/**
 * Published starter and motor duties, each as a card with its stated verdict, and one second to either side of it.
 * The figures are facts read in the sources that each block names.
 */
import { describe, expect, test } from 'vitest';
import { codesOf } from '../oracle/engine.ts';

const MINUTE = 60;
const HOUR = 3600;

/** A card that runs and rests in turn, in seconds: run, rest, run, … */
function dutyCard(duties: readonly string[], ...times: readonly number[]): string {
  const steps = times.map(
    (seconds, index) => `  step { ${index % 2 === 0 ? `run motor turning for ${seconds} s` : `wait ${seconds} s`} }`,
  );
  return [
    'kind motor { still, turning }',
    'item motor : motor "the motor" normally still {',
    ...duties.map((duty) => `  duty turning ${duty}`),
    '}',
    'card trial "A trial" {',
    ...steps,
    '}',
  ].join('\n');
}

function dutyCodes(duties: readonly string[], ...times: readonly number[]): readonly string[] {
  return codesOf(dutyCard(duties, ...times)).filter((code) => code.startsWith('duty.'));
}

describe('turboprop starter, 40 s on / 60 s off, three times, then 30 min (kingairmagazine.com, starter time limits)', () => {
  const duties = ['at most 40 s, then rest 60 s', 'at most 3 times, then rest 30 min'];

  test('the stated cycle, and again after the long rest', () => {
    expect(dutyCodes(duties, 40, 60, 40, 60, 40, 30 * MINUTE, 40)).toEqual([]);
  });
  test('41 s on', () => {
    expect(dutyCodes(duties, 41, 60, 40)).toEqual(['duty.too-long']);
  });
  test('59 s off', () => {
    expect(dutyCodes(duties, 40, 59, 40)).toEqual(['duty.short-rest']);
  });
  test('a fourth start after 29 min, and after 30 min less a second', () => {
    expect(dutyCodes(duties, 40, 60, 40, 60, 40, 29 * MINUTE, 40)).toEqual(['duty.too-often']);
    expect(dutyCodes(duties, 40, 60, 40, 60, 40, 30 * MINUTE - 1, 40)).toEqual(['duty.too-often']);
  });
  test('the long rest after two starts already begins the count again', () => {
    expect(dutyCodes(duties, 40, 60, 40, 30 * MINUTE, 40, 60, 40, 60, 40)).toEqual([]);
  });
});

describe('the same maker, 300 series, 30 s on / 5 min off, three times, then 30 min', () => {
  const duties = ['at most 30 s, then rest 5 min', 'at most 3 times, then rest 30 min'];

  test('the stated cycle', () => {
    expect(dutyCodes(duties, 30, 5 * MINUTE, 30, 5 * MINUTE, 30, 30 * MINUTE, 30)).toEqual([]);
  });
  test('a second too much on, too little off, too early again', () => {
    expect(dutyCodes(duties, 31)).toEqual(['duty.too-long']);
    expect(dutyCodes(duties, 30, 5 * MINUTE - 1, 30)).toEqual(['duty.short-rest']);
    expect(dutyCodes(duties, 30, 5 * MINUTE, 30, 5 * MINUTE, 30, 30 * MINUTE - 1, 30)).toEqual(['duty.too-often']);
  });
});

describe('pneumatic starter of a helicopter (TM 1-1520-238-10, 5.6)', () => {
  const cool = [
    'at most 1 times, then rest 60 s',
    'at most 2 times, then rest 3 min',
    'at most 4 times, then rest 30 min',
  ];
  const warm = ['at most 1 times, then rest 60 s', 'at most 2 times, then rest 30 min'];

  test('60 s between cycles, whatever the first lasted', () => {
    expect(dutyCodes(cool, 2, 60, 90)).toEqual([]);
    expect(dutyCodes(cool, 2, 59, 90)).toEqual(['duty.too-often']);
  });
  test('to 16 degC two cycles, 3 min, two cycles, 30 min', () => {
    expect(dutyCodes(cool, 30, 60, 30, 180, 30, 60, 30, 30 * MINUTE, 30)).toEqual([]);
    expect(dutyCodes(cool, 30, 60, 30, 179, 30)).toEqual(['duty.too-often']);
    expect(dutyCodes(cool, 30, 60, 30, 180, 30, 60, 30, 30 * MINUTE - 1, 30)).toEqual(['duty.too-often']);
  });
  test('above 16 degC the third start after 3 min is one too many, after 30 min it is none', () => {
    expect(dutyCodes(warm, 30, 60, 30, 180, 30)).toEqual(['duty.too-often']);
    expect(dutyCodes(warm, 30, 60, 30, 30 * MINUTE - 1, 30)).toEqual(['duty.too-often']);
    expect(dutyCodes(warm, 30, 60, 30, 30 * MINUTE, 30)).toEqual([]);
  });
  test('no two engines are started at once', () => {
    const card = (between: string) => `
      kind starter { off, cranking }
      item starter-1, starter-2 : starter normally off
      rule one-at-a-time "One start at a time" { before any starter cranking require every starter off }
      card trial "A trial" {
        step { set starter-1 cranking wait 5 s }
        ${between}
        step { set starter-2 cranking wait 5 s }
        step { set starter-1 off, starter-2 off wait 5 s }
      }`;
    expect(codesOf(card('')).filter((code) => code === 'safety.rule')).toHaveLength(1);
    expect(codesOf(card('step { set starter-1 off wait 5 s }')).filter((code) => code === 'safety.rule')).toEqual([]);
  });
});

describe('auxiliary power unit of the same helicopter (5.8)', () => {
  const duties = ['at most 1 times, then rest 30 s', 'at most 2 times, then rest 20 min', 'at most 3 times in 1 h'];

  test('30 s after the compressor has stopped', () => {
    expect(dutyCodes(duties, 10, 30, 10)).toEqual([]);
    expect(dutyCodes(duties, 10, 29, 10)).toEqual(['duty.too-often']);
  });
  test('20 min before the third attempt', () => {
    expect(dutyCodes(duties, 10, 30, 10, 20 * MINUTE, 10)).toEqual([]);
    expect(dutyCodes(duties, 10, 30, 10, 20 * MINUTE - 1, 10)).toEqual(['duty.too-often']);
  });
  test('three attempts in any hour: the window is half open', () => {
    // Starts at 0, 1210, 2420 and then `last`: the fourth may come 3600 s after the first and no second before.
    const starts = (last: number) => [10, 1200, 10, 1200, 10, last - 2430, 10] as const;
    expect(dutyCodes(duties, ...starts(HOUR + 30))).toEqual([]);
    expect(dutyCodes(['at most 3 times in 1 h'], ...starts(HOUR))).toEqual([]);
    expect(dutyCodes(['at most 3 times in 1 h'], ...starts(HOUR - 1))).toEqual(['duty.too-often']);
  });
  test('the window rolls on: an hour that begins at the second start counts as much', () => {
    const late = [10, 3500, 10, 600, 10, 600, 10, 600, 10] as const;
    expect(dutyCodes(['at most 3 times in 1 h'], ...late)).toEqual(['duty.too-often']);
  });
});

describe('light aircraft starter, 30 s then 2 min (handbook as quoted in generalaviationnews.com, 2021-03-04)', () => {
  const duties = ['at most 30 s, then rest 2 min'];

  test('at the limits', () => {
    expect(dutyCodes(duties, 30, 120, 30)).toEqual([]);
    expect(dutyCodes(duties, 31, 120, 30)).toEqual(['duty.too-long']);
    expect(dutyCodes(duties, 30, 119, 30)).toEqual(['duty.short-rest']);
  });
  test('the reported event, five starts of 8 s with 5 s between: each start after the first comes too soon', () => {
    expect(dutyCodes(duties, 8, 5, 8, 5, 8, 5, 8, 5, 8)).toEqual(Array(4).fill('duty.short-rest'));
  });
});

test('piston engine starter, continuous cranking of a minute (question bank of the FAA, examzify)', () => {
  expect(dutyCodes(['at most 1 min'], 60)).toEqual([]);
  expect(dutyCodes(['at most 1 min'], 61)).toEqual(['duty.too-long']);
});

describe('a loop is the starts that it makes', () => {
  const loop = (times: number) => `
    kind motor { still, turning }
    item motor : motor "the motor" normally still {
      duty turning at most 40 s, then rest 60 s
      duty turning at most 3 times, then rest 30 min
    }
    card trial "A trial" {
      repeat at most ${times} times until "Does it run?" {
        step { run motor turning for 40 s }
        step { wait 60 s }
      }
    }`;

  test('up to three starts', () => {
    expect(codesOf(loop(3)).filter((code) => code.startsWith('duty.'))).toEqual([]);
  });
  test('up to four', () => {
    expect(codesOf(loop(4)).filter((code) => code.startsWith('duty.'))).toEqual(['duty.too-often']);
  });
});

test('intermittent duty S3 25 %, 10 min on, 30 min off (IEC 60034-1 as worked at industrialmonitordirect.com)', () => {
  const duties = ['at most 10 min, then rest 30 min'];
  expect(dutyCodes(duties, 600, 1800, 600)).toEqual([]);
  expect(dutyCodes(duties, 601, 1800, 600)).toEqual(['duty.too-long']);
  expect(dutyCodes(duties, 600, 1799, 600)).toEqual(['duty.short-rest']);
});

describe('motor of 25 hp with 4 poles (NEMA MG 10, table of allowable starts)', () => {
  const duties = ['at most 2 times in 1 h', 'at most 1 times, then rest 58 s'];

  test('a load inertia of 50 allows 122/50 = 2.44 starts an hour: two are none, three are a finding', () => {
    expect(dutyCodes(duties, 60, 58, 60)).toEqual([]);
    expect(dutyCodes(duties, 60, 58, 60, 58, 60)).toEqual(['duty.too-often']);
  });
  test('58 s off at least', () => {
    expect(dutyCodes(duties, 60, 57, 60)).toEqual(['duty.too-often']);
  });
  test('a load inertia of 10 leaves 8.8 starts an hour: eight are none, nine are a finding', () => {
    const starts = (count: number) => Array.from({ length: 2 * count - 1 }, (_, index) => (index % 2 === 0 ? 60 : 58));
    expect(dutyCodes(['at most 8 times in 1 h'], ...starts(8))).toEqual([]);
    expect(dutyCodes(['at most 8 times in 1 h'], ...starts(9))).toEqual(['duty.too-often']);
  });
});

describe('air starter (common practice, no source)', () => {
  test('may turn an engine dry for 60 s and then rests 4 min', () => {
    const duties = ['at most 60 s, then rest 4 min'];
    expect(dutyCodes(duties, 60, 240, 60)).toEqual([]);
    expect(dutyCodes(duties, 61, 240, 60)).toEqual(['duty.too-long']);
    expect(dutyCodes(duties, 60, 239, 60)).toEqual(['duty.short-rest']);
  });

  test('air of 40 psi against a minimum of 26 psi passes, 25 psi does not', () => {
    const card = (asked: number) => `
      gauge duct "duct pressure" in psi { reads 0 to 60 by 1 limit start at least 26 psi }
      card trial "A trial" { step { read duct at least ${asked} psi } }`;
    expect(codesOf(card(40))).not.toContain('limit.looser');
    expect(codesOf(card(26))).not.toContain('limit.looser');
    expect(codesOf(card(25))).toContain('limit.looser');
  });
});
