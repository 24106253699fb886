/** Numbers the nodes so that, loops aside, each comes after those that lead to it. Nodes that are not reached get no number (-1). */
export function flowOrder(nodes: number, start: number, next: (node: number) => readonly number[]): Int32Array {
  const order = new Int32Array(nodes).fill(-1);
  const entered = new Uint8Array(nodes);
  const left: number[] = [];
  const stack: { node: number; next: readonly number[]; index: number }[] = [
    { node: start, next: next(start), index: 0 },
  ];
  entered[start] = 1;
  for (let top = stack.at(-1); top; top = stack.at(-1)) {
    if (top.index === top.next.length) {
      left.push(top.node);
      stack.pop();
      continue;
    }
    const to = top.next[top.index++] as number;
    if (entered[to]) continue;
    entered[to] = 1;
    stack.push({ node: to, next: next(to), index: 0 });
  }
  left.reverse().forEach((node, index) => {
    order[node] = index;
  });
  return order;
}

/** 1 for each of these nodes, and for each that can be come to from one of them. */
export function reached(
  nodes: number,
  starts: Iterable<number>,
  next: (node: number) => readonly number[] | undefined,
): Uint8Array {
  const found = new Uint8Array(nodes);
  const queue = [...starts];
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    if (found[node]) continue;
    found[node] = 1;
    for (const to of next(node) ?? []) queue.push(to);
  }
  return found;
}
