/** The one fixpoint: values go along the ways of a graph, and grow where they meet, until none grows any more. */
import TinyQueue from 'tinyqueue';
import type { InParts } from '../../shared/parts.ts';
import { flowOrder } from './order.ts';

/** What is worked out for each node, and how. */
export interface Growing<Value, Way> {
  readonly starts: ReadonlyMap<number, Value>;
  /** What a way brings to its end; undefined where none is to be worked out there. */
  readonly along: (value: Value, way: Way) => Value | undefined;
  /** What allows either; the known value itself where the other brings nothing new. */
  readonly join: (known: Value, arriving: Value) => Value;
  /** How often a node grows before it counts as one that goes on for ever. */
  readonly mostGrowths: (node: number) => number;
  /** What such a node gets; the known value itself where it is that already. */
  readonly widen: (known: Value, joined: Value) => Value;
  /** Told of every value, and of the way by which it came. */
  readonly onChange?: (way: Way, value: Value, before: Value | undefined) => void;
}

/** So many nodes in one part of the work. */
const nodesInPart = 64;

/** The value of each node that a way leads to, in the order of the ways: of two that bring the same, the first way counts. */
export function* settle<Value, Way>(
  ways: readonly (readonly Way[])[],
  targetOf: (way: Way) => number,
  { starts, along, join, mostGrowths, widen, onChange }: Growing<Value, Way>,
): InParts<(Value | undefined)[]> {
  const beforeStarts = ways.length;
  const order = flowOrder(ways.length + 1, beforeStarts, (node) =>
    (node === beforeStarts ? [...starts.keys()] : (ways[node] ?? []).map(targetOf)).reverse(),
  );
  const values: (Value | undefined)[] = new Array(ways.length);
  for (const [node, value] of starts) values[node] = value;
  const rank = (node: number) => order[node] as number;
  const queue = new TinyQueue([...starts.keys()], (a, b) => rank(a) - rank(b));
  const isWaiting = new Uint8Array(ways.length);
  const growths = new Int32Array(ways.length);
  for (let settled = 1, node = queue.pop(); node !== undefined; settled++, node = queue.pop()) {
    if (settled % nodesInPart === 0) yield;
    isWaiting[node] = 0;
    for (const way of ways[node] ?? []) {
      const to = targetOf(way);
      const arriving = along(values[node] as Value, way);
      if (arriving === undefined) continue;
      const known = values[to];
      let value = known === undefined ? arriving : join(known, arriving);
      if (known !== undefined && value !== known && ++(growths[to] as number) > mostGrowths(to))
        value = widen(known, value);
      if (value === known) continue;
      values[to] = value;
      onChange?.(way, value, known);
      if (!isWaiting[to]) queue.push(to);
      isWaiting[to] = 1;
    }
  }
  return values;
}
