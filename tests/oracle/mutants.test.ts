/** Slips of writers in two clean samples; `npm run prove` takes all samples. */
import { expect, test } from 'vitest';
import { reportOfMisses } from './judge.ts';
import { judgeSamples } from './samples.ts';

test('every bad mutant of two samples is reported', () => {
  const { judged } = judgeSamples(['samples/merganser'], (name) => /^(rinse|battery-isolation)/.test(name));
  expect(reportOfMisses(judged)).toBe('');
  expect(judged.filter(({ bad }) => bad.length > 0).length).toBeGreaterThan(20);
});
