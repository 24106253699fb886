/**
 * Published flow graphs with known dominators and post-dominators, as cards with `go to`: what must have been done before is broken exactly where the
 * doing does not dominate, and what must be put back is left exactly where the putting back does not post-dominate.
 * The graphs and their trees are those of the tests of networkx (test_dominance.py), which quotes the papers named below.
 */
import { describe, expect, test } from 'vitest';
import { findingsOf } from '../oracle/engine.ts';

interface FlowGraph {
  readonly name: string;
  readonly start: number;
  /** Absent where the published graph has none: then every node may leave. */
  readonly exit?: number;
  readonly edges: readonly (readonly [number, number])[];
  /** The nearest dominator of each node but the start. */
  readonly dominator: Readonly<Record<number, number>>;
  readonly postDominator?: Readonly<Record<number, number>>;
}

const GRAPHS: readonly FlowGraph[] = [
  {
    name: 'Cooper, Harvey and Kennedy, figure 2 (irreducible)',
    start: 5,
    edges: [
      [1, 2],
      [2, 1],
      [3, 2],
      [4, 1],
      [5, 3],
      [5, 4],
    ],
    dominator: { 1: 5, 2: 5, 3: 5, 4: 5 },
  },
  {
    name: 'Cooper, Harvey and Kennedy, figure 4 (irreducible)',
    start: 6,
    edges: [
      [1, 2],
      [2, 1],
      [2, 3],
      [3, 2],
      [4, 2],
      [4, 3],
      [5, 1],
      [6, 4],
      [6, 5],
    ],
    dominator: { 1: 6, 2: 6, 3: 6, 4: 6, 5: 6 },
  },
  {
    name: 'the example of the encyclopedia article on dominators',
    start: 1,
    exit: 6,
    edges: [
      [1, 2],
      [2, 3],
      [2, 4],
      [2, 6],
      [3, 5],
      [4, 5],
      [5, 2],
    ],
    dominator: { 2: 1, 3: 2, 4: 2, 5: 2, 6: 2 },
    postDominator: { 1: 2, 2: 6, 3: 5, 4: 5, 5: 2 },
  },
  {
    name: 'Lengauer and Tarjan, figure 1, as in Boost',
    start: 0,
    exit: 7,
    edges: [
      [0, 1],
      [1, 2],
      [1, 3],
      [2, 7],
      [3, 4],
      [4, 5],
      [4, 6],
      [5, 7],
      [6, 4],
    ],
    dominator: { 1: 0, 2: 1, 3: 1, 4: 3, 5: 4, 6: 4, 7: 1 },
    postDominator: { 0: 1, 1: 7, 2: 7, 3: 4, 4: 5, 5: 7, 6: 4 },
  },
];

function nodesOf(graph: FlowGraph): readonly number[] {
  return [...new Set([graph.start, ...graph.edges.flat()])];
}

/** Every pair of different nodes of which the first is no (post-)dominator of the second. */
function outside(graph: FlowGraph, tree: Readonly<Record<number, number>>): readonly string[] {
  const above = (node: number): readonly number[] =>
    tree[node] === undefined ? [] : [tree[node], ...above(tree[node])];
  return pairs(graph).flatMap(([a, b]) => (above(b).includes(a) ? [] : [`${a}-${b}`]));
}

function pairs(graph: FlowGraph): readonly (readonly [number, number])[] {
  return nodesOf(graph).flatMap((a) => nodesOf(graph).flatMap((b) => (a === b ? [] : [[a, b] as const])));
}

/** One labelled step a node, and a question for each way on but the last. */
function body(graph: FlowGraph, actions: (node: number) => string): string {
  return nodesOf(graph)
    .map((node) => {
      const ways = graph.edges.filter(([from]) => from === node).map(([, to]) => to);
      const leave = graph.exit === undefined ? ['  if "Leave it here?" { finish }'] : [];
      const questions = ways.slice(0, -1).map((way) => `  if "On to ${way}?" { go to node-${way} }`);
      const last = ways.length === 0 ? '  finish' : `  go to node-${ways.at(-1)}`;
      return [`  step node-${node}: { ${actions(node)} }`, ...leave, ...questions, last].join('\n');
    })
    .join('\n');
}

describe.each(GRAPHS)('$name', (graph) => {
  test('what must come before is broken where it does not dominate', () => {
    const text = [
      'kind flag { down, up }',
      `item ${nodesOf(graph)
        .map((node) => `flag-${node}`)
        .join(', ')} : flag normally down`,
      ...pairs(graph).map(
        ([a, b]) => `rule via-${a}-${b} "${a} before ${b}" { before flag-${b} up require flag-${a} up }`,
      ),
      'card trial "A trial" {',
      body(graph, (node) => `set flag-${node} up`),
      '}',
    ].join('\n');
    const broken = findingsOf(text).flatMap((finding) =>
      finding.code === 'safety.rule' ? [finding.rule?.replace('via-', '')] : [],
    );
    expect([...new Set(broken)].sort()).toEqual([...outside(graph, graph.dominator)].sort());
  });

  test.runIf(graph.postDominator)('what is put back there is left where it does not post-dominate', () => {
    const left = nodesOf(graph).flatMap((from) => leftFrom(graph, from));
    expect([...left].sort()).toEqual([...outside(graph, graph.postDominator ?? {})].sort());
  });
});

/** Changes one item for each other node at `from`, and puts each back at its own: those that are found left behind, as `back-from`. */
function leftFrom(graph: FlowGraph, from: number): readonly string[] {
  const others = nodesOf(graph).filter((node) => node !== from);
  const actions = (node: number) =>
    node === from ? `set ${others.map((other) => `flag-${other} up`).join(', ')}` : `set flag-${node} down`;
  const text = [
    'kind flag { down, up }',
    `item ${others.map((node) => `flag-${node} "flag number ${node}"`).join(', ')} : flag normally down`,
    'card trial "A trial" {',
    body(graph, actions),
    '}',
  ].join('\n');
  return findingsOf(text).flatMap((finding) => {
    const back = /flag number (\d+)/i.exec(finding.message)?.[1];
    return finding.code === 'safety.left-changed' && back !== undefined ? [`${back}-${from}`] : [];
  });
}

test('a node that no path reaches is found', () => {
  const text = `
    kind flag { down, up }
    item flag-1 : flag normally down
    card trial "A trial" {
      go to node-2
      step node-1: { set flag-1 up }
      step node-2: { set flag-1 down }
    }`;
  const found = findingsOf(text).filter((finding) => finding.code === 'flow.unreachable');
  expect(found.map((finding) => text.slice(finding.place.start, finding.place.start + 12))).toEqual(['step node-1:']);
});
