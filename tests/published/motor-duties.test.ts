/** What stands on the plates of motors: IEC 60034-1 S1 to S3, and the starts in an hour of NEMA MG 10. */
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse.ts';
import { bind } from '../../server/binding/bind.ts';
import { check, findingsOf } from '../support/check.ts';

/** Runs and rests in turn, in seconds, of a motor with a plate. */
function codes(plate: string, ...times: readonly number[]): readonly string[] {
  const steps = times.map(
    (time, at) => `step { ${at % 2 === 0 ? `run hoist running for ${time} s` : `wait ${time} s`} }`,
  );
  const text = `item hoist : motor "the hoist" normally stopped { duty running rated ${plate} }
card c "C" { number "1" revision "A" crew f "Fitter"
${steps.join('\n')}
}`;
  return findingsOf(text, { only: ['duty'] }).map(({ code }) => code);
}

const min = 60;
const hour = 3600;

describe('IEC 60034-1', () => {
  test('S1 runs as long as it likes', () => expect(codes('"S1"', 24 * hour)).toEqual([]));

  test('S2 30 min, cold again after 2 h', () => {
    expect(codes('"S2 30 min", then rest 2 h', 30 * min, 2 * hour, 30 * min)).toEqual([]);
    expect(codes('"S2 30 min", then rest 2 h', 30 * min + 1)).toEqual(['duty.too-long']);
    expect(codes('"S2 30 min", then rest 2 h', 30 * min, 2 * hour - 1, 1)).toEqual(['duty.short-rest']);
  });

  test('S2 without the time to cool down is told', () => expect(codes('"S2 30 min"', 1)).toEqual(['duty.plate']));

  test('worked example: S3 25 %, 10 min run and 30 min rest (industrialmonitordirect.com)', () => {
    expect(codes('"S3 25 % 40 min"', 10 * min, 30 * min, 10 * min)).toEqual([]);
    expect(codes('"S3 25 % 40 min"', 10 * min, 30 * min - 1, 10 * min)).toEqual(['duty.short-rest']);
    expect(codes('"S3 25 % 40 min"', 10 * min + 1)).toEqual(['duty.too-long']);
  });

  /** Minutes of a cycle of 10 min, calculated; that it is 10 min is from memory. */
  test.each([
    [15, 1.5],
    [25, 2.5],
    [40, 4],
    [60, 6],
  ])('S3 %d %% with no cycle given is %d min of 10', (percent, on) => {
    const rest = 10 - on;
    expect(codes(`"S3 ${percent} %"`, on * min, rest * min, on * min)).toEqual([]);
    expect(codes(`"S3 ${percent} %"`, on * min, rest * min - 1, on * min)).toEqual(['duty.short-rest']);
    expect(codes(`"S3 ${percent} %"`, on * min + 1)).toEqual(['duty.too-long']);
  });

  test('so the run of 10 min of the worked example is too long where no cycle is given', () => {
    expect(codes('"S3 25 %"', 10 * min)).toEqual(['duty.too-long']);
  });
});

describe('NEMA MG 10, table 2-3', () => {
  const plate = '"MG 10, 25 hp, 4-pole, 50 lb.ft2"';

  test('worked example: 25 hp, 4-pole, 50 lb.ft2 may start 122 / 50 = 2.44 times in an hour: two, and no third', () => {
    expect(codes(plate, 1, 58, 1)).toEqual([]);
    expect(codes(plate, 1, 58, 1, 58, 1)).toEqual(['duty.too-often']);
    expect(codes(plate, 1, 58, 1, hour, 1)).toEqual([]);
  });
  test('with a light load the motor itself governs: 8.8', () => {
    const starts = (count: number) => Array.from({ length: 2 * count - 1 }, (_, at) => (at % 2 === 0 ? 1 : 58));
    expect(codes('"MG 10, 25 hp, 4-pole, 10 lb.ft2"', ...starts(8))).toEqual([]);
    expect(codes('"MG 10, 25 hp, 4-pole, 10 lb.ft2"', ...starts(9))).toContain('duty.too-often');
  });
  test('58 s off between them, not 57', () => {
    expect(codes(plate, 1, 57, 1)).not.toEqual([]);
  });
  test('60 hp, 2-pole: 3.2 in an hour, 170 s apart', () => {
    expect(codes('"MG 10, 60 hp, 2-pole"', 1, 170, 1, 170, 1)).toEqual([]);
    expect(codes('"MG 10, 60 hp, 2-pole"', 1, 170, 1, 170, 1, 170, 1)).toEqual(['duty.too-often']);
  });
  test('where less than one start in an hour is allowed, the next one waits longer', () => {
    expect(codes('"MG 10, 25 hp, 4-pole, 244 lb.ft2"', 1, 2 * hour - 2, 1)).toContain('duty.too-often');
    expect(codes('"MG 10, 25 hp, 4-pole, 244 lb.ft2"', 1, 2 * hour, 1)).toEqual([]);
  });

  /** Horsepower, then with 2, 4 and 6 poles the starts in an hour, starts times load inertia, and seconds off: two copies agree cell by cell. */
  const printed = `
1|15 1.2 75|30 5.8 38|34 15 33
1.5|12.9 1.8 76|25.7 8.6 38|29.1 23 34
2|11.5 2.4 77|23 11 39|26.1 30 35
3|9.9 3.5 80|19.8 17 40|22.4 44 36
5|8.1 5.7 83|16.3 27 42|18.4 71 37
7.5|7.0 8.3 88|13.9 39 44|15.8 104 39
10|6.2 11 92|12.5 51 46|14.2 137 41
15|5.4 16 100|10.7 75 50|12.1 200 44
20|4.8 21 110|9.6 99 55|10.9 262 48
25|4.4 26 115|8.8 122 58|10.0 324 51
30|4.1 31 120|8.2 144 60|9.3 384 53
40|3.7 40 130|7.4 189 65|8.4 503 57
50|3.4 49 145|6.8 232 72|7.7 620 64
60|3.2 58 170|6.3 275 85|7.2 735 75
75|2.9 71 180|5.8 338 90|6.6 904 79
100|2.6 92 220|5.2 441 110|5.9 1181 97
125|2.4 113 275|4.8 542 140|5.4 1452 120
150|2.2 133 320|4.5 640 160|5.1 1719 140
200|2.0 172 600|4.0 831 300|4.5 2238 265
250|1.8 210 1000|3.7 1017 500|4.2 2744 440
`
    .trim()
    .split('\n')
    .map((row) => row.split('|') as [string, string, string, string]);

  /** The duties of a plate, as starts in a window and the seconds between them. */
  function dutiesOf(plate: string) {
    const text = `item hoist : motor "the hoist" normally stopped { duty running rated "${plate}" }`;
    const { equipment } = bind('a.card', () => parse(text));
    return equipment.items[0]?.duties.map((duty) => {
      if (duty.type === 'times-in-window') return [duty.times, duty.window.valueOf()];
      return duty.type === 'times-then-rest' ? [duty.times, duty.rest.valueOf()] : duty;
    });
  }

  test.each(printed)('%s hp: %s | %s | %s', (power, ...columns) => {
    for (const [at, column] of columns.entries()) {
      const [starts = 0, inertia = 0, off] = column.split(' ').map(Number);
      const plate = `MG 10, ${power} hp, ${2 * (at + 1)}-pole`;
      expect(dutiesOf(plate)).toEqual([
        [Math.floor(starts), hour],
        [1, off],
      ]);
      // With twice the inertia that allows one start in an hour, there is one in two hours.
      expect(dutiesOf(`${plate}, ${2 * inertia} lb.ft2`)).toEqual([
        [1, 2 * hour],
        [1, off],
      ]);
    }
  });
  test('has 20 rows', () => expect(printed).toHaveLength(20));
});

test('a plate that is none of these is told where it stands', () => {
  check(
    'item hoist : motor "the hoist" normally stopped { duty running rated "S3 110 %" }\n//                                                                   ^^^^^^^^^^ duty.plate',
  );
  expect(codes('"MG 10, 26 hp, 4-pole"')).toEqual(['duty.plate']);
});
