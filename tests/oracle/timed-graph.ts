/** Random timed stretches of a card, once as text in our language and once as edges of a graph for the solver. */
import * as fc from 'fast-check';
import type { Edge } from './solver.ts';

export type Part =
  | { readonly type: 'wait'; readonly low: number; readonly more: number; readonly open: boolean }
  | { readonly type: 'choose'; readonly ways: readonly (readonly Part[])[] }
  | { readonly type: 'if'; readonly body: readonly Part[]; readonly otherwise: readonly Part[] }
  | { readonly type: 'repeat'; readonly times: number; readonly body: readonly Part[] }
  | { readonly type: 'until'; readonly times: number; readonly body: readonly Part[] }
  /** The rest may be left out by a jump. */
  | { readonly type: 'leave'; readonly rest: readonly Part[] };

const wait: fc.Arbitrary<Part> = fc.record({
  type: fc.constant('wait' as const),
  low: fc.integer({ min: 1, max: 90 }),
  more: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 60 })),
  open: fc.oneof({ weight: 30, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
});

function part(depth: number): fc.Arbitrary<Part> {
  if (depth === 0) return wait;
  const inner = parts(depth - 1);
  return fc.oneof(
    { weight: 3, arbitrary: wait },
    {
      weight: 1,
      arbitrary: fc.record({
        type: fc.constant('choose' as const),
        ways: fc.array(inner, { minLength: 2, maxLength: 3 }),
      }),
    },
    { weight: 1, arbitrary: fc.record({ type: fc.constant('if' as const), body: inner, otherwise: inner }) },
    {
      weight: 1,
      arbitrary: fc.record({
        type: fc.constantFrom('repeat' as const, 'until' as const),
        times: fc.integer({ min: 1, max: 3 }),
        body: inner,
      }),
    },
    { weight: 1, arbitrary: fc.record({ type: fc.constant('leave' as const), rest: inner }) },
  );
}

export function parts(depth: number): fc.Arbitrary<readonly Part[]> {
  return fc.array(part(depth), { minLength: 1, maxLength: 3 });
}

/** Labels are numbered through the whole card. */
export class PartPrinter {
  private labels = 0;

  print(list: readonly Part[]): string {
    return list.map((each) => this.printPart(each)).join('\n');
  }

  private printPart(part: Part): string {
    switch (part.type) {
      case 'wait':
        return `step { wait ${part.open ? `at least ${part.low} s` : part.more === 0 ? `${part.low} s` : `${part.low} s to ${part.low + part.more} s`} }`;
      case 'choose':
        return `choose { ${part.ways.map((way, index) => `"Way ${index}" {\n${this.print(way)}\n}`).join(' or ')} }`;
      case 'if':
        return `if "Is it so?" {\n${this.print(part.body)}\n} else {\n${this.print(part.otherwise)}\n}`;
      case 'repeat':
        return `repeat ${part.times} times {\n${this.print(part.body)}\n}`;
      case 'until': {
        const after = `after-${++this.labels}`;
        return `repeat at most ${part.times} times until "Is it done?" {\n${this.print(part.body)}\n} else go to ${after}\nstep ${after}: { wait 1 s }`;
      }
      case 'leave': {
        const after = `after-${++this.labels}`;
        return `if "Is it enough?" { go to ${after} }\n${this.print(part.rest)}\nstep ${after}: { wait 1 s }`;
      }
    }
  }
}

/** The same stretch as a graph without loops: each round of a repeat has edges of its own. */
export class GraphBuilder {
  readonly edges: Edge[] = [];
  private nodes = 1;

  /** Adds the stretch after a node and gives the node at its end. */
  add(list: readonly Part[], from: number): number {
    return list.reduce((node, each) => this.addPart(each, node), from);
  }

  private addPart(part: Part, from: number): number {
    switch (part.type) {
      case 'wait':
        return this.edge(from, this.nodes++, part.low, part.open ? undefined : part.low + part.more);
      case 'choose':
        return this.join(part.ways.map((way) => this.add(way, from)));
      case 'if':
        return this.join([this.add(part.body, from), this.add(part.otherwise, from)]);
      case 'repeat':
        return this.rounds(part.times, part.body, from).at(-1) as number;
      case 'until':
        return this.edge(this.join(this.rounds(part.times, part.body, from)), this.nodes++, 1, 1);
      case 'leave':
        return this.edge(this.join([from, this.add(part.rest, from)]), this.nodes++, 1, 1);
    }
  }

  /** The node after each round. */
  private rounds(times: number, body: readonly Part[], from: number): readonly number[] {
    const ends: number[] = [];
    for (let round = 0; round < times; round++) ends.push(this.add(body, ends.at(-1) ?? from));
    return ends;
  }

  private join(ends: readonly number[]): number {
    const node = this.nodes++;
    for (const end of ends) this.edge(end, node, 0, 0);
    return node;
  }

  private edge(from: number, to: number, low: number, high: number | undefined): number {
    this.edges.push({ from, to, low, ...(high !== undefined && { high }) });
    return to;
  }
}
