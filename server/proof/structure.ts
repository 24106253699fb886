/** What follows from which ways can be taken at all: steps that no path reaches, loops that no path leaves. */
import type { Card, Stage, Statement, Step } from '../../shared/card.ts';
import { blocksOf } from '../flow/configurations.ts';
import type { Flow, Move, Point } from '../flow/graph.ts';
import { placeKey } from './collector.ts';

/** The moves that some path takes, given the conditional ones that were found to be possible. */
export function liveMoves(flow: Flow, taken: ReadonlySet<number>): { reached: Uint8Array; live: number[] } {
  const reached = new Uint8Array(flow.points);
  const live: number[] = [];
  const queue: Point[] = [flow.start];
  reached[flow.start] = 1;
  for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
    for (const index of flow.from[point] ?? []) {
      const { happening, to } = flow.moves[index] as Move;
      if (happening.type === 'assume' && !taken.has(index)) continue;
      live.push(index);
      if (reached[to]) continue;
      reached[to] = 1;
      queue.push(to);
    }
  }
  return { reached, live };
}

export function stepsReached(flow: Flow, live: readonly number[]): { drawn: Set<string>; reached: Set<string> } {
  const keys = (moves: readonly Move[]) =>
    new Set(moves.flatMap(({ steps }) => steps?.map((step) => placeKey(step.place)) ?? []));
  return { drawn: keys(flow.moves), reached: keys(live.map((index) => flow.moves[index] as Move)) };
}

/** Of several steps in a row that are not reached, the first. */
export function firstUnreached(card: Card, drawn: ReadonlySet<string>, reached: ReadonlySet<string>): Step[] {
  const first: Step[] = [];
  const listed = new Set<string>();
  let before = true;
  for (const step of stepsIn(card.body)) {
    const key = placeKey(step.place);
    if (!drawn.has(key) || listed.has(key)) continue;
    listed.add(key);
    if (before && !reached.has(key)) first.push(step);
    before = reached.has(key);
  }
  return first;
}

export function stepsIn(body: readonly (Stage | Statement)[]): Step[] {
  return body.flatMap((part) => (part.type === 'step' ? [part] : blocksOf(part).flatMap(stepsIn)));
}

/** The moves that close loops from which no path comes to an end. */
export function endlessClosings(flow: Flow, reached: Uint8Array, live: readonly number[], order: Int32Array): Move[] {
  const into = new Map<Point, Point[]>();
  for (const index of live) {
    const { from, to } = flow.moves[index] as Move;
    const froms = into.get(to);
    if (froms) froms.push(from);
    else into.set(to, [from]);
  }
  const ends = new Uint8Array(flow.points);
  const queue = [...reached.keys()].filter(
    (point) => reached[point] && flow.from[point]?.length === 0 && into.has(point),
  );
  for (const point of queue) ends[point] = 1;
  for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
    for (const from of into.get(point) ?? []) {
      if (ends[from]) continue;
      ends[from] = 1;
      queue.push(from);
    }
  }
  return live
    .map((index) => flow.moves[index] as Move)
    .filter(({ from, to }) => !ends[from] && (order[to] as number) <= (order[from] as number));
}
