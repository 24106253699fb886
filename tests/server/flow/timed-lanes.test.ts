/** Lanes drawn in every interleaving for times: what is silent only takes its time. */
import { expect, test } from 'vitest';
import { buildFlow } from '../../../server/flow/build.ts';
import type { Move } from '../../../server/flow/graph.ts';
import { cardOf, waysThrough } from './draw.ts';

/** Looks at the drain only. */
const isSilent = ({ happening }: Move) =>
  happening.type === 'pass' || happening.type === 'moment' || ('item' in happening && happening.item.name !== 'drain');

function timed(body: string, led = 0) {
  return buildFlow(cardOf(body), { includes: () => true, lead: () => led, isSilent });
}

const ways = (body: string, led?: number) => [...new Set(waysThrough(timed(body, led)))].sort();

test('silent moves are one, and interleave as one', () => {
  expect(
    ways('together { by one { step wait 1 s step wait 2 s } by two { step { wait 3 s set vent open } } }'),
  ).toEqual(['fork, 3 s, 3 s, join, finish']);
});

test('what is looked at stays by itself, and the time before and after it too', () => {
  const lanes = 'together { by one { step { wait 1 s set drain open wait 2 s } } by two { step wait 5 s } }';
  expect(ways(lanes)).toEqual([
    'fork, 1 s, 5 s, set drain open, 2 s, join, finish',
    'fork, 1 s, set drain open, 2 s, 5 s, join, finish',
    'fork, 1 s, set drain open, 5 s, 2 s, join, finish',
    'fork, 5 s, 1 s, set drain open, 2 s, join, finish',
  ]);
});

test('what takes time and is looked at stays apart from the time after it', () => {
  expect(ways('together { by one { step { wait until drain open within 5 s wait 3 s } } by two { } }')).toEqual([
    'fork, (the wait is in vain) 5 s, no, stopping (the card stops), join, stopped',
    'fork, 0 to 5 s, yes, 3 s, join, finish',
  ]);
});

test('rounds of a silent lane are as long as all of them', () => {
  const lanes = 'together { by one { step set drain open } by two { repeat 3 times { step wait 2 s } } }';
  expect(ways(lanes, 0).join()).toContain(' 6 s');
});

test('a silent lane that may leave has a move for each of its ends, and the lanes come together there', () => {
  const lanes = 'together { by one { } by two { step wait 1 s if "Done?" { step wait 2 s finish } step wait 9 s } }';
  expect(ways(lanes)).toEqual(['fork, 10 s, join, finish', 'fork, finish 3 s, join']);
});

test('what follows at once in a silent lane does not keep the others from coming before', () => {
  const lanes =
    'together { by one { step takes 0 s set drain open } by two { step takes 1 s check "Well?" else finish } }';
  expect(ways(lanes)).toContain('fork, set drain open, finish 1 s, join');
});

test('silent moves of different hands, or lanes, stay apart', () => {
  const roles = 'together { by one { step by one wait 1 s step by two wait 2 s } by two { } }';
  expect(ways(roles)).toEqual(['fork, 1 s, 2 s, join, finish']);
  const nested =
    'together { by one { step wait 1 s together { by one { step wait 2 s } by two { step wait 3 s } } } by two { } }';
  expect(ways(nested)).toEqual([
    'fork, 1 s, fork, 2 s, 3 s, join, join, finish',
    'fork, 1 s, fork, 3 s, 2 s, join, join, finish',
  ]);
});

test('each move says in which lanes it happens', () => {
  const nested = 'together { by one { } by two { together { by one { } by two { step wait 3 s } } step wait 4 s } }';
  const tracks = timed(nested, -1)
    .moves.filter(({ time }) => time.most > 0)
    .map(({ track, time }) => `${track?.join('.')} ${time.most / 1e6} s`);
  expect([...new Set(tracks)]).toEqual(['1.1 3 s', '1 4 s']);
});

test('where the interleavings are too many, one lane is followed', () => {
  const long = 'step set drain open '.repeat(60);
  const flow = timed(`together { by one { ${long} } by two { ${long} } by two { ${long} } }`);
  expect(flow.blended).toBe(true);
  expect(flow.points).toBeLessThan(500);
  expect(flow.moves.some(({ happening }) => happening.type === 'join')).toBe(true);
});
