/** z3 as a second oracle: linear arithmetic and choices, solved by somebody else's code. */
import { setTimeout as sleep } from 'node:timers/promises';
import { type Arith, type Bool, init } from 'z3-solver';

async function start() {
  const { Context } = await init();
  return Context('main');
}

export type Solver = Awaited<ReturnType<typeof start>>;

let running: ReturnType<typeof start> | undefined;
const stoodStill = Symbol('stood still');

/** Asks the solver. It answers in milliseconds, but for once when its threads stood still for good: another is started then. */
export async function ask<Answer>(question: (z3: Solver) => Promise<Answer>, attempts = 3): Promise<Answer> {
  running ??= start();
  const late = sleep(60_000, stoodStill, { ref: false });
  const answer = await Promise.race([running.then(question), late]);
  if (answer !== stoodStill) return answer as Answer;
  running = undefined;
  if (attempts === 1) throw new Error('The solver does not answer.');
  return ask(question, attempts - 1);
}

/** One way on through a timed graph: it takes from `low` to `high` seconds, without end where `high` is absent. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high?: number;
}

/** The greatest and least time from node 0 to `end` over all ways and all times; `most` undefined where nothing bounds it. */
export async function timeThrough(
  z3: Solver,
  edges: readonly Edge[],
  end: number,
): Promise<{ readonly least: number; readonly most?: number }> {
  const unbounded = await endlessWay(z3, edges, end);
  const least = await best(z3, edges, end, 'minimize');
  return unbounded ? { least } : { least, most: await best(z3, edges, end, 'maximize') };
}

interface Ways {
  readonly taken: readonly Bool<'main'>[];
  readonly constraints: readonly Bool<'main'>[];
}

/** Which edges are taken: one way out of each node that is entered, and one into it. */
function ways(z3: Solver, edges: readonly Edge[], end: number): Ways {
  const taken = edges.map((_, index) => z3.Bool.const(`taken-${index}`));
  const flow = (chosen: readonly Bool<'main'>[]) =>
    chosen.reduce<Arith<'main'>>(
      (sum, take) => sum.add(z3.If(take, z3.Int.val(1), z3.Int.val(0)) as Arith<'main'>),
      z3.Int.val(0),
    );
  const out = (node: number) => flow(taken.filter((_, index) => edges[index]?.from === node));
  const into = (node: number) => flow(taken.filter((_, index) => edges[index]?.to === node));
  const nodes = [...new Set(edges.flatMap((edge) => [edge.from, edge.to]))];
  const constraints = nodes.map((node) => {
    if (node === 0) return out(0).eq(1);
    return node === end ? into(end).eq(1) : z3.And(out(node).eq(into(node)), out(node).le(1));
  });
  return { taken, constraints };
}

async function endlessWay(z3: Solver, edges: readonly Edge[], end: number): Promise<boolean> {
  const { taken, constraints } = ways(z3, edges, end);
  const endless = taken.filter((_, index) => edges[index]?.high === undefined);
  if (endless.length === 0) return false;
  const search = new z3.Solver();
  search.add(...constraints, z3.Or(...endless));
  return (await search.check()) === 'sat';
}

async function best(
  z3: Solver,
  edges: readonly Edge[],
  end: number,
  direction: 'maximize' | 'minimize',
  attempts = 3,
): Promise<number> {
  const { taken, constraints } = ways(z3, edges, end);
  const search = new z3.Optimize();
  search.add(...constraints);
  let total: Arith<'main'> = z3.Real.val(0);
  edges.forEach((edge, index) => {
    const time = z3.Real.const(`time-${index}`);
    search.add(time.ge(edge.low));
    if (edge.high !== undefined) search.add(time.le(edge.high));
    total = total.add(z3.If(taken[index] as Bool<'main'>, time, z3.Real.val(0)) as Arith<'main'>);
  });
  search[direction](total);
  const answer = await search.check();
  // On a machine with much else to do it now and then gives up.
  if (answer === 'unknown' && attempts > 1) return best(z3, edges, end, direction, attempts - 1);
  if (answer !== 'sat') throw new Error(`the timed graph has no way through: ${answer}`);
  return Number(search.model().eval(total).toString());
}
