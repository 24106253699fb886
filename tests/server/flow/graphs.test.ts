/** What the engine asks of graphs, held against the plainest way to find it. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { onCircles } from '../../../server/flow/components.ts';
import { Agenda, flowOrder } from '../../../server/flow/order.ts';

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

test('an agenda gives the earliest first, and each once', () => {
  fc.assert(
    fc.property(fc.array(fc.nat({ max: 40 }), { maxLength: 30 }), (nodes) => {
      const agenda = new Agenda((node) => -node);
      for (const node of nodes) agenda.add(node);
      const taken: number[] = [];
      for (let node = agenda.take(); node !== undefined; node = agenda.take()) taken.push(node);
      expect(taken).toEqual([...new Set(nodes)].sort((a, b) => b - a));
    }),
    { seed: 1, numRuns: 200 },
  );
});

test('what was taken from an agenda may be added again', () => {
  const agenda = new Agenda((node) => node);
  agenda.add(3);
  expect(agenda.take()).toBe(3);
  agenda.add(3);
  agenda.add(1);
  expect([agenda.take(), agenda.take(), agenda.take()]).toEqual([1, 3, undefined]);
});
