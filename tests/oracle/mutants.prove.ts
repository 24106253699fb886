/** `npm run prove`: slips of writers in all clean samples, with the table of what became of them. */
import { expect, test } from 'vitest';
import { reportOfMisses, tableOf } from './judge.ts';
import { judgeSamples } from './samples.ts';

test('every bad mutant of the samples is reported', () => {
  const { judged, tooBig } = judgeSamples(['samples/merganser', 'samples/heron-dyke']);
  console.log(tableOf(judged));
  if (tooBig.length > 0) console.log(`With more runs than the oracle can go through: ${tooBig.join(', ')}`);
  expect(reportOfMisses(judged)).toBe('');
});
