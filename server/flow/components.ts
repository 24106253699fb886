/** Which nodes lie on a circle (Tarjan's strongly connected components, without recursion). */
export function onCircles(nodes: number, next: (node: number) => readonly number[]): Uint8Array {
  const circle = new Uint8Array(nodes);
  const number = new Int32Array(nodes).fill(-1);
  const low = new Int32Array(nodes);
  const waiting: number[] = [];
  const isWaiting = new Uint8Array(nodes);
  let count = 0;
  for (let root = 0; root < nodes; root++) {
    if (number[root] !== -1) continue;
    const calls: { node: number; next: readonly number[]; index: number }[] = [];
    const enter = (node: number) => {
      number[node] = low[node] = count++;
      waiting.push(node);
      isWaiting[node] = 1;
      calls.push({ node, next: next(node), index: 0 });
    };
    enter(root);
    for (let call = calls.at(-1); call; call = calls.at(-1)) {
      const { node } = call;
      const to = call.next[call.index++];
      if (to === undefined) {
        calls.pop();
        const caller = calls.at(-1);
        if (caller) low[caller.node] = Math.min(low[caller.node] as number, low[node] as number);
        if (low[node] === number[node]) closeComponent(node);
      } else if (to === node) circle[node] = 1;
      else if (number[to] === -1) enter(to);
      else if (isWaiting[to]) low[node] = Math.min(low[node] as number, number[to] as number);
    }
  }
  return circle;

  function closeComponent(root: number): void {
    const members = waiting.splice(waiting.lastIndexOf(root));
    for (const member of members) {
      isWaiting[member] = 0;
      if (members.length > 1) circle[member] = 1;
    }
  }
}
