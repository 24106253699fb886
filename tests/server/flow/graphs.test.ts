/** What the engine asks of graphs, held against the plainest way to find it. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { onCircles } from '../../../server/flow/components.ts';
import { flowOrder } from '../../../server/flow/order.ts';
import { settle } from '../../../server/flow/settle.ts';
import { finish } from '../../../shared/parts.ts';

const size = 8;

/** For each node the nodes that it leads to. */
const graph = fc.array(fc.uniqueArray(fc.nat({ max: size - 1 }), { maxLength: 3 }), {
  minLength: size,
  maxLength: size,
});

/** The nodes that a way of one move or more leads to. */
function reached(next: readonly (readonly number[])[], from: number): ReadonlySet<number> {
  const found = new Set<number>();
  const waiting = [...(next[from] ?? [])];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if (found.has(node)) continue;
    found.add(node);
    waiting.push(...(next[node] ?? []));
  }
  return found;
}

test('a node lies on a circle where a way leads from it to itself', () => {
  fc.assert(
    fc.property(graph, (next) => {
      const expected = next.map((_, node) => (reached(next, node).has(node) ? 1 : 0));
      expect([...onCircles(size, (node) => next[node] ?? [])]).toEqual(expected);
    }),
    { seed: 1, numRuns: 200 },
  );
});

test('each node is numbered after those that lead to it, loops aside; what is not reached has no number', () => {
  fc.assert(
    fc.property(graph, fc.nat({ max: size - 1 }), (next, start) => {
      const order = flowOrder(size, start, (node) => next[node] ?? []);
      const there = next.map((_, node) => node === start || reached(next, start).has(node));
      expect([...order].map((number) => number >= 0)).toEqual(there);
      expect([...order].filter((number) => number >= 0).sort()).toEqual([...there.filter(Boolean).keys()]);
      next.forEach((targets, node) => {
        for (const to of there[node] ? targets : [])
          if (!reached(next, to).has(node) && to !== node)
            expect(order[to] as number).toBeGreaterThan(order[node] as number);
      });
    }),
    { seed: 1, numRuns: 200 },
  );
});

/** Ways with what they add; those that add nothing make no sum grow. */
const weighed = fc.array(
  fc.array(fc.record({ to: fc.nat({ max: size - 1 }), adds: fc.nat({ max: 3 }) }), { maxLength: 3 }),
  { minLength: size, maxLength: size },
);

type Weighed = readonly { readonly to: number; readonly adds: number }[];

/** The best sum of all ways of at most so many moves. */
function bestSums(ways: readonly Weighed[], start: number, moves: number, best: (...sums: number[]) => number) {
  let sums: (number | undefined)[] = ways.map((_, node) => (node === start ? 0 : undefined));
  for (let move = 0; move < moves; move++) {
    const next = [...sums];
    ways.forEach((out, node) => {
      for (const { to, adds } of sums[node] === undefined ? [] : out)
        next[to] = best(next[to] ?? (sums[node] as number) + adds, (sums[node] as number) + adds);
    });
    sums = next;
  }
  return sums;
}

function settled(ways: readonly Weighed[], start: number, best: (...sums: number[]) => number) {
  return finish(
    settle<number, Weighed[number]>(ways, ({ to }) => to, {
      starts: new Map([[start, 0]]),
      along: (sum, { adds }) => sum + adds,
      join: best,
      mostGrowths: () => 4 * size,
      widen: () => Number.POSITIVE_INFINITY,
    }),
  );
}

test('the least sums settle at those of all ways', () => {
  fc.assert(
    fc.property(weighed, fc.nat({ max: size - 1 }), (ways, start) => {
      expect(settled(ways, start, Math.min)).toEqual(bestSums(ways, start, size, Math.min));
    }),
    { seed: 1, numRuns: 200 },
  );
});

test('the greatest sums settle at those of all ways, without end where one goes round and grows', () => {
  fc.assert(
    fc.property(weighed, fc.nat({ max: size - 1 }), (ways, start) => {
      const [few, more] = [size, 4 * size].map((moves) => bestSums(ways, start, moves, Math.max));
      const expected = few?.map((sum, node) => (sum === more?.[node] ? sum : Number.POSITIVE_INFINITY));
      expect(settled(ways, start, Math.max)).toEqual(expected);
    }),
    { seed: 1, numRuns: 200 },
  );
});

test('of two ways that bring the same, the first is told', () => {
  const cameFrom: number[] = [];
  const ways = [[2, 1], [3], [3], []].map((targets, from) => targets.map((to) => ({ from, to })));
  finish(
    settle<number, { readonly from: number; readonly to: number }>(ways, ({ to }) => to, {
      starts: new Map([[0, 1]]),
      along: (value) => value,
      join: (known) => known,
      mostGrowths: () => 0,
      widen: (known) => known,
      onChange: ({ from, to }) => {
        cameFrom[to] = from;
      },
    }),
  );
  expect(cameFrom).toEqual([undefined, 0, 0, 2]);
});
