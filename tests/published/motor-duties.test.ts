/** What stands on the plates of motors: IEC 60034-1 S1 to S3, and the starts in an hour of NEMA MG 10. */
import { describe, expect, test } from 'vitest';
import { startsTable } from '../../server/binding/plates.ts';
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
  test('each row grows or falls as its neighbours do, which a slip of a digit would break', () => {
    for (const column of [1, 2, 3] as const) {
      for (const [at, falls] of [
        [0, true],
        [1, false],
        [2, false],
      ] as const) {
        const values = startsTable.map((row) => Number(row[column][at]));
        const sorted = [...values].sort((a, b) => (falls ? b - a : a - b));
        expect(values).toEqual(sorted);
      }
    }
    expect(startsTable).toHaveLength(20);
  });
});

test('a plate that is none of these is told where it stands', () => {
  check(
    'item hoist : motor "the hoist" normally stopped { duty running rated "S3 110 %" }\n//                                                                   ^^^^^^^^^^ duty.plate',
  );
  expect(codes('"MG 10, 26 hp, 4-pole"')).toEqual(['duty.plate']);
});
