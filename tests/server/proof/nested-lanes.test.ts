/** Duties beside lanes in lanes: what the inner lanes wait for each other is time in the outer one too. */
import { expect, test } from 'vitest';
import { card, kinds, proofOf } from './prove.ts';

const run = 'run starter-1 cranking for 10 s';

function told(duty: string, body: string): string[] {
  const starter = `item starter-1 : starter "the starter" normally off { duty cranking at most ${duty} }`;
  return proofOf([kinds, starter, card(body)].join('\n')).proof.duties.map(
    ({ sort, worst, limit }) => `${sort} ${worst?.valueOf() ?? 'any'}/${limit.valueOf()}`,
  );
}

/** The lane is 150 s old when its inner lanes have come together, and then does what is given; the others take 250 s. */
const inner = `together { by one { step ${run} } by three { step wait 50 s } }`;
const nested = (then: string) => `together { by one { step wait 100 s ${inner} ${then} } by two { step wait 250 s } } `;

test('the rest after a run in the outer lane lasts until the other lanes are done', () => {
  expect(told('60 s, then rest 240 s', `${nested(`step ${run}`)} step ${run}`)).toEqual([
    'short-rest 40/240',
    'short-rest 90/240',
  ]);
});

test('a run that goes on beyond the outer lane lasts at least until the other lanes are done', () => {
  const beyond = `${nested('step takes 0 s set starter-1 cranking')} step takes 0 s set starter-1 off`;
  expect(told('60 s', beyond)).toEqual(['too-long 100/60']);
  expect(told('100 s', beyond)).toEqual([]);
});
