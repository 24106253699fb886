import { flowOrder } from './order.ts';

/**
 * Which nodes lie on a circle. Gone through in flow order, a node and what leads to it, without what an earlier one has taken, is a
 * strongly connected component (Kosaraju).
 */
export function onCircles(nodes: number, next: (node: number) => readonly number[]): Uint8Array {
  const into: number[][] = Array.from({ length: nodes }, () => []);
  const all = [...into.keys()];
  for (const node of all) for (const to of next(node)) into[to]?.push(node);
  const order = flowOrder(nodes + 1, nodes, (node) => (node === nodes ? all : next(node)));
  const circle = new Uint8Array(nodes);
  const taken = new Uint8Array(nodes);
  for (const root of all.toSorted((a, b) => (order[a] as number) - (order[b] as number))) {
    if (taken[root]) continue;
    taken[root] = 1;
    const component = [root];
    for (const node of component) {
      for (const from of into[node] as readonly number[]) {
        if (!taken[from]) component.push(from);
        taken[from] = 1;
      }
    }
    if (component.length > 1 || next(root).includes(root)) for (const node of component) circle[node] = 1;
  }
  return circle;
}
