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

/** Nodes to be looked at, the earliest in the order first, each at most once at a time. */
export class Agenda {
  private readonly heap: number[] = [];
  private readonly waiting = new Set<number>();

  constructor(private readonly rank: (node: number) => number) {}

  add(node: number): void {
    if (this.waiting.has(node)) return;
    this.waiting.add(node);
    this.heap.push(node);
    let child = this.heap.length - 1;
    while (child > 0) {
      const parent = (child - 1) >> 1;
      if (this.before(parent, child)) break;
      this.swap(parent, child);
      child = parent;
    }
  }

  take(): number | undefined {
    const first = this.heap[0];
    if (first === undefined) return undefined;
    this.waiting.delete(first);
    const last = this.heap.pop() as number;
    if (this.heap.length > 0) {
      this.heap[0] = last;
      this.sink();
    }
    return first;
  }

  private sink(): void {
    let parent = 0;
    for (;;) {
      const left = 2 * parent + 1;
      const right = left + 1;
      let first = parent;
      if (left < this.heap.length && !this.before(first, left)) first = left;
      if (right < this.heap.length && !this.before(first, right)) first = right;
      if (first === parent) return;
      this.swap(parent, first);
      parent = first;
    }
  }

  private before(a: number, b: number): boolean {
    return this.rank(this.heap[a] as number) <= this.rank(this.heap[b] as number);
  }

  private swap(a: number, b: number): void {
    const kept = this.heap[a] as number;
    this.heap[a] = this.heap[b] as number;
    this.heap[b] = kept;
  }
}
