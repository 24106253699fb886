/** The other criteria of the setting `noiseCriterion`, each row of their published tables, and a card that one passes and another does not. */
import { describe, expect, test } from 'vitest';
import { permissibleSeconds } from '../../server/proof/time/dose.ts';
import type { NoiseCriterion } from '../../shared/settings.ts';
import { findingsOf } from '../support/check.ts';

const HOUR = 3600;

/** NIOSH, 85 dBA with 3 dB: level and hours:minutes (engineeringtoolbox.com, noise exposure level duration). */
const hoursAndMinutes: readonly (readonly [number, string])[] = [
  [80, '25:24'],
  [81, '20:10'],
  [82, '16:00'],
  [83, '12:42'],
  [84, '10:05'],
  [85, '8:00'],
  [86, '6:21'],
  [87, '5:02'],
  [88, '4:00'],
  [89, '3:10'],
  [90, '2:31'],
  [91, '2:00'],
  [92, '1:35'],
  [93, '1:16'],
  [94, '1:00'],
];

/** The same page, and table 1-1 of NIOSH 98-126: level and minutes:seconds. */
const minutesAndSeconds: readonly (readonly [number, string])[] = [
  [95, '47:37'],
  [96, '37:48'],
  [97, '30:00'],
  [98, '23:49'],
  [100, '15:00'],
  [101, '11:54'],
  [102, '9:27'],
  [103, '7:30'],
  [104, '5:57'],
  [105, '4:43'],
  [106, '3:45'],
  [107, '2:59'],
  [108, '2:22'],
  [109, '1:53'],
  [110, '1:29'],
  [111, '1:11'],
  [112, '0:56'],
  [113, '0:45'],
  [114, '0:35'],
  [115, '0:28'],
];

/**
 * NIOSH 98-126, table 1-1, its last rows as two public transcriptions of it have them: whole seconds, of which 124 and 127 dBA are cut
 * off and not rounded.
 */
const seconds: readonly (readonly [number, number])[] = [
  [116, 22],
  [117, 18],
  [118, 14],
  [119, 11],
  [120, 9],
  [121, 7],
  [122, 6],
  [123, 4],
  [124, 3],
  [125, 3],
  [126, 2],
  [127, 1],
  [128, 1],
  [129, 1],
];

/** National Joint Council of Canada, directive 8.13, 87 dBA: level and hours (njc-cnm.gc.ca). */
const canadianHours: readonly (readonly [number, string])[] = [
  [83, '20'],
  [84, '16'],
  [85, '13'],
  [86, '10'],
  [87, '8.0'],
  [88, '6.4'],
  [89, '5.0'],
  [90, '4.0'],
  [91, '3.2'],
  [92, '2.5'],
  [93, '2.0'],
  [94, '1.6'],
  [95, '1.3'],
  [96, '1.0'],
  [97, '0.80'],
  [98, '0.64'],
  [99, '0.50'],
  [100, '0.40'],
  [101, '0.32'],
];

/** `a:b` in units of b. */
function inSmall(printed: string): number {
  const [large = 0, small = 0] = printed.split(':').map(Number);
  return large * 60 + small;
}

describe('NIOSH, 85 dBA with 3 dB', () => {
  const niosh = (level: number) => permissibleSeconds(level, '85 dBA, 3 dB');

  test.each(hoursAndMinutes)('%d dBA for %s h', (level, printed) => {
    expect(Math.abs(niosh(level) / 60 - inSmall(printed))).toBeLessThanOrEqual(0.5);
  });
  test.each(minutesAndSeconds)('%d dBA for %s min', (level, printed) => {
    expect(Math.abs(niosh(level) - inSmall(printed))).toBeLessThanOrEqual(0.5);
  });
  test.each(seconds)('%d dBA for %d s', (level, printed) => {
    const isCutOff = level === 124 || level === 127;
    expect((isCutOff ? Math.floor : Math.round)(niosh(level))).toBe(printed);
  });
  test('99 dBA: the page misprints 18:59 min; its formula says 18:54', () => {
    expect(Math.round(niosh(99))).toBe(inSmall('18:54'));
  });
});

describe('Canada, 87 dBA', () => {
  test.each(canadianHours)('%d dBA for %s h', (level, printed) => {
    const digits = printed.split('.')[1]?.length ?? 0;
    expect(Math.abs(permissibleSeconds(level, '87 dBA, 3 dB') / HOUR - Number(printed))).toBeLessThanOrEqual(
      0.5 * 10 ** -digits,
    );
  });
  test('88, 97 and 98 dBA are equal energy, and no exchange of 3 dB exactly', () => {
    for (const [level, printed] of [
      [88, '6.4'],
      [97, '0.80'],
      [98, '0.64'],
    ] as const) {
      const places = printed.split('.')[1]?.length ?? 0;
      const byThree = 8 / 2 ** ((level - 87) / 3);
      expect((permissibleSeconds(level, '87 dBA, 3 dB') / HOUR).toFixed(places)).toBe(printed);
      expect(byThree.toFixed(places)).not.toBe(printed);
    }
  });
});

describe('a card', () => {
  const doseBy = (noiseCriterion: NoiseCriterion, level: number, hours: number) => {
    const card = `item mill : motor "the mill" normally stopped
hazard noise "noise" while mill running { level ${level} dBA warning "Noise can damage your hearing." }
card c "C" { number "1" revision "A" crew m "Miller" warning noise step run mill running for ${hours} h }`;
    return findingsOf(card, { only: ['noise'], settings: { noiseCriterion } }).map(({ message, source }) => [
      /(\d+) %/.exec(message)?.[1],
      source,
    ]);
  };

  test('of 4 h at 91 dBA is within one criterion, and beyond another, which the finding names', () => {
    expect(doseBy('90 dBA, 5 dB', 91, 4)).toEqual([]);
    expect(doseBy('85 dBA, 3 dB', 91, 4)).toEqual([['200', expect.stringContaining('NIOSH')]]);
    expect(doseBy('87 dBA, 3 dB', 91, 4)).toEqual([['126', expect.stringContaining('Canada')]]);
  });
});
