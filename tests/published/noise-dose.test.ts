/** The noise dose of 29 CFR 1910.95 (appendix A and table G-16A) and its protection (appendix B), each value as a card just below and just above 100 %. */
import { describe, expect, test } from 'vitest';
import { dose } from '../../server/proof/dose.ts';
import { findingsOf } from '../oracle/engine.ts';

interface Exposure {
  readonly dBA: number;
  readonly seconds: number;
}

const HOUR = 3600;

/** One noisy cart for each exposure, run one after the other by the only member of the crew. */
function noiseCard(exposures: readonly Exposure[], rating?: number): string {
  const worn = rating === undefined ? '' : ' protect muffs on';
  return [
    'kind cart { stopped, running }',
    'kind worn { away, on }',
    `item muffs : worn normally away reduces ${rating ?? 0} dB`,
    ...exposures.flatMap(({ dBA }, index) => [
      `item cart-${index} : cart normally stopped`,
      `hazard noise-${index} "noise" while cart-${index} running { level ${dBA} dBA warning "Noise can damage your hearing."${worn} }`,
    ]),
    'card trial "A trial" {',
    '  number "1" revision "A" crew mechanic "Mechanic"',
    ...exposures.map((_, index) => `  warning noise-${index}`),
    ...(rating === undefined ? [] : ['  step takes 1 s set muffs on']),
    ...exposures.map(({ seconds }, index) => `  step run cart-${index} running for ${seconds} s`),
    ...(rating === undefined ? [] : ['  step takes 1 s set muffs away']),
    '}',
  ].join('\n');
}

/** The dose in whole percent as the finding says it, or undefined where it is at most 100 %. */
function doseOf(exposures: readonly Exposure[], rating?: number): number | undefined {
  const found = findingsOf(noiseCard(exposures, rating)).filter((finding) => finding.code === 'noise.dose');
  expect(found.length).toBeLessThanOrEqual(1);
  const percent = /(\d+(?:\.\d+)?) ?%/.exec(found[0]?.message ?? '')?.[1];
  return percent === undefined ? undefined : Number(percent);
}

/** Level in dBA, hours as printed in table G-16A (osha.gov, 1910.95 appendix A). */
const TABLE: readonly (readonly [number, string])[] = [
  [80, '32'],
  [81, '27.9'],
  [82, '24.3'],
  [84, '18.4'],
  [85, '16'],
  [86, '13.9'],
  [87, '12.1'],
  [88, '10.6'],
  [89, '9.2'],
  [90, '8'],
  [91, '7.0'],
  [92, '6.1'],
  [93, '5.3'],
  [94, '4.6'],
  [95, '4'],
  [96, '3.5'],
  [97, '3.0'],
  [98, '2.6'],
  [99, '2.3'],
  [100, '2'],
  [101, '1.7'],
  [102, '1.5'],
  [103, '1.3'],
  [104, '1.1'],
  [105, '1'],
  [106, '0.87'],
  [107, '0.76'],
  [108, '0.66'],
  [109, '0.57'],
  [110, '0.5'],
  [111, '0.44'],
  [112, '0.38'],
  [113, '0.33'],
  [114, '0.29'],
  [115, '0.25'],
  [116, '0.22'],
  [117, '0.19'],
  [118, '0.16'],
  [119, '0.14'],
  [120, '0.125'],
  [121, '0.11'],
  [122, '0.095'],
  [123, '0.082'],
  [124, '0.072'],
  [125, '0.063'],
  [126, '0.054'],
  [127, '0.047'],
  [128, '0.041'],
  [129, '0.036'],
  [130, '0.031'],
];

/** Half a step of the last digit printed, in hours. */
function halfDigit(printed: string): number {
  const places = printed.split('.')[1]?.length ?? 0;
  return 0.5 * 10 ** -places;
}

describe('table G-16A', () => {
  test.each(TABLE)('%d dBA for %s h', (dBA, printed) => {
    const hours = Number(printed);
    const below = Math.floor((hours - halfDigit(printed)) * HOUR);
    const above = Math.ceil((hours + halfDigit(printed)) * HOUR) + 1;
    expect(doseOf([{ dBA, seconds: below }])).toBeUndefined();
    expect(doseOf([{ dBA, seconds: above }])).toBeGreaterThan(100);
  });

  test('83 dBA: the newer copy misprints 21.2 h; the older copy and the formula say 21.1 h', () => {
    expect(doseOf([{ dBA: 83, seconds: Math.floor(21.1 * HOUR) }])).toBeUndefined();
    expect(doseOf([{ dBA: 83, seconds: Math.ceil(21.15 * HOUR) }])).toBeGreaterThan(100);
  });
});

describe('appendix A', () => {
  test('a whole day at 90 dBA is 100 %, and a second more is above', () => {
    expect(doseOf([{ dBA: 90, seconds: 8 * HOUR }])).toBeUndefined();
    expect(doseOf([{ dBA: 90, seconds: 8 * HOUR + 1 }])).toBeGreaterThan(100);
  });
  test('8 h at 92 dBA is 131.95 % by the formula, not the 131 % of the rounded table', () => {
    expect(doseOf([{ dBA: 92, seconds: 8 * HOUR }])).toBe(132);
  });
  test('mixed: 2 h at 95, 2 h at 100 and 4 h at 85 dBA are 50 + 100 + 25 = 175 %', () => {
    expect(
      doseOf([
        { dBA: 95, seconds: 2 * HOUR },
        { dBA: 100, seconds: 2 * HOUR },
        { dBA: 85, seconds: 4 * HOUR },
      ]),
    ).toBe(175);
  });
  test('under 80 dBA nothing counts: the 69.6 dBA of PMC8169711, table 3, gives no dose at all', () => {
    expect(doseOf([{ dBA: 69.6, seconds: 1000 * HOUR }])).toBeUndefined();
    expect(doseOf([{ dBA: 79.9, seconds: 1000 * HOUR }])).toBeUndefined();
    expect(doseOf([{ dBA: 80, seconds: 33 * HOUR }])).toBeGreaterThan(100);
  });
});

describe('protection takes off half of the rating less 7 (appendix B, halved in the field)', () => {
  /** Worked values read in a public discussion of the technical manual: 100 dBA behind a rating of 25 is 91 dBA, 98 dBA is 89 dBA. */
  test.each([
    [100, 91],
    [98, 89],
  ])('%d dBA behind a rating of 25 dB is %d dBA', (outside, inside) => {
    const allowed = (8 * HOUR) / 2 ** ((inside - 90) / 5);
    expect(doseOf([{ dBA: outside, seconds: Math.floor(allowed) }], 25)).toBeUndefined();
    expect(doseOf([{ dBA: outside, seconds: Math.ceil(allowed) + 1 }], 25)).toBeGreaterThan(100);
  });
});

/**
 * Table G-16 (29 CFR 1910.95(b), read in two reprints): dBA and hours. Those of 92, 97 and 102 dBA are rounded down; the formula of
 * appendix A allows a little more, and it is the formula that counts here.
 */
const G16: readonly (readonly [dBA: number, hours: number, byFormula: number])[] = [
  [90, 8, 8],
  [92, 6, 6.063],
  [95, 4, 4],
  [97, 3, 3.031],
  [100, 2, 2],
  [102, 1.5, 1.516],
  [105, 1, 1],
  [110, 0.5, 0.5],
  [115, 0.25, 0.25],
];

test.each(G16)('table G-16: %d dBA for %d h', (dBA, hours, byFormula) => {
  expect(doseOf([{ dBA, seconds: hours * HOUR }])).toBeUndefined();
  expect(doseOf([{ dBA, seconds: Math.floor((byFormula - 0.0005) * HOUR) }])).toBeUndefined();
  expect(doseOf([{ dBA, seconds: Math.ceil((byFormula + 0.0005) * HOUR) }])).toBeGreaterThan(100);
});

/**
 * Table A-1, dose in percent and level over 8 h, from memory: the table itself was not found, its formula was read (16.61 log(D/100) +
 * 90), and each row agrees with that. Rows under 25 % lie below 80 dBA, where this tool counts nothing.
 */
const A1: readonly (readonly [percent: number, dBA: number])[] = [
  [50, 85.0],
  [75, 87.9],
  [81, 88.5],
  [91, 89.3],
  [93, 89.5],
  [100, 90.0],
  [110, 90.7],
  [125, 91.6],
  [150, 92.9],
  [200, 95.0],
  [250, 96.6],
  [300, 97.9],
  [400, 100.0],
  [500, 101.6],
  [800, 105.0],
  [999, 106.6],
];

test.each(A1)('table A-1 (from memory): a dose of %d %% is a day at %d dBA', (percent, dBA) => {
  expect(Math.round((16.61 * Math.log10(percent / 100) + 90) * 10) / 10).toBeCloseTo(dBA, 5);
  expect(dose(dBA - 0.051, 8 * HOUR)).toBeLessThan(percent);
  expect(dose(dBA + 0.051, 8 * HOUR)).toBeGreaterThan(percent);
});

/** Worked values of the appendix and of WAC 296-307-63215, which take off the whole rating less 7; here half of that counts. */
test.each([
  [100, 19, 88, 94],
  [95, 20, 82, 88.5],
])('%d dBA behind a rating of %d is published as %d dBA, and counts as %d', (outside, rating, published, counted) => {
  expect(outside - (rating - 7)).toBe(published);
  const allowed = (8 * HOUR) / 2 ** ((counted - 90) / 5);
  expect(doseOf([{ dBA: outside, seconds: Math.floor(allowed) }], rating)).toBeUndefined();
  expect(doseOf([{ dBA: outside, seconds: Math.ceil(allowed) + 1 }], rating)).toBeGreaterThan(100);
});
