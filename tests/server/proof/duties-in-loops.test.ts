/** Runs in rounds that nothing counts: how many there may be, and the way that is told. */
import { expect, test } from 'vitest';
import { card, kinds, pathTold, proofOf } from './prove.ts';

function proved(duty: string, body: string) {
  const starter = `item starter-1 : starter "the starter" normally off { ${duty} }`;
  return proofOf([kinds, starter, 'gauge ng "Ng" in %', card(body)].join('\n')).proof.duties;
}

const again = 'step again: { run starter-1 cranking for 10 s read ng at least 12 % else go to again }';
const lap = ['the starter: cranking', 'the starter goes back (10 s later)', 'the reading fails', 'back to again'];

test('the way goes round as often as it takes to break a count', () => {
  const [broken] = proved('duty cranking at most 3 times, then rest 30 min', again);
  expect(pathTold(broken)).toEqual([...lap, ...lap, ...lap]);
  expect([broken?.sort, broken?.count, broken?.worst?.valueOf()]).toEqual(['too-often', 4, 0]);
});

test('the way goes round as often as it takes to break a window', () => {
  const [broken] = proved('duty cranking at most 3 times in 10 min', again);
  expect(pathTold(broken)).toEqual([...lap, ...lap, ...lap]);
  expect([broken?.sort, broken?.count, broken?.worst?.valueOf()]).toEqual(['too-often', 4, 30]);
});

test('a rest that is long enough in each round breaks nothing', () => {
  const rested = again.replace('read', 'wait 30 min read');
  expect(proved('duty cranking at most 3 times, then rest 30 min', rested)).toEqual([]);
  expect(proved('duty cranking at most 3 times, then rest 30 min', rested.replace('30 min', '1799 s'))).toHaveLength(1);
});

test('runs beyond the first too many are counted on', () => {
  const runs = Array.from({ length: 7 }, () => 'step run starter-1 cranking for 10 s').join('\n');
  const counts = proved('duty cranking at most 3 times, then rest 30 min', runs).map(({ count }) => count);
  expect(counts).toEqual([4, 5, 6, 7]);
});

test('past twenty too many they are no longer counted', () => {
  const runs = Array.from({ length: 25 }, () => 'step run starter-1 cranking for 10 s').join('\n');
  const counts = proved('duty cranking at most 3 times, then rest 30 min', runs).map(({ count }) => count);
  expect(counts.slice(-3)).toEqual([23, undefined, undefined]);
});
