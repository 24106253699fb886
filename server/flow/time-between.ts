import type { Move, Point } from './graph.ts';
import { Agenda, flowOrder } from './order.ts';
import type { Ticks } from './time.ts';

interface Way {
  readonly to: number;
  readonly time: Ticks;
}

/**
 * The least and the most time from one point to another over all ways, counted loops with their rounds. A round that takes
 * time and is not counted makes the most infinite. Undefined where no way leads there.
 */
export function timeBetween(moves: readonly Move[], from: Point, to: Point): Ticks | undefined {
  const { ways, goals } = unrollLoops(moves, from, to);
  const useful = thatLeadTo(ways, goals);
  if (!useful[0]) return undefined;
  const least = best(
    ways,
    useful,
    (way) => way.time.least,
    (a, b) => a < b,
  );
  const most = best(
    ways,
    useful,
    (way) => way.time.most,
    (a, b) => a > b,
  );
  return {
    least: Math.min(...goals.map((goal) => least[goal] ?? Number.POSITIVE_INFINITY)),
    most: Math.max(...goals.map((goal) => most[goal] ?? 0)),
  };
}

/** Points with the rounds done so far; node 0 is the start. */
function unrollLoops(moves: readonly Move[], from: Point, to: Point): { ways: Way[][]; goals: number[] } {
  const byPoint = new Map<Point, Move[]>();
  for (const move of moves) {
    const group = byPoint.get(move.from);
    if (group) group.push(move);
    else byPoint.set(move.from, [move]);
  }
  const nodes: { point: Point; rounds: ReadonlyMap<number, number> }[] = [{ point: from, rounds: new Map() }];
  const known = new Map<string, number>([[`${from}`, 0]]);
  const ways: Way[][] = [];
  for (let node = 0; node < nodes.length; node++) {
    const here = nodes[node] as (typeof nodes)[number];
    const out: Way[] = [];
    for (const move of here.point === to ? [] : (byPoint.get(here.point) ?? [])) {
      const rounds = roundsAfter(here.rounds, move);
      if (!rounds) continue;
      const key = [move.to, ...[...rounds].flat()].join(' ');
      let there = known.get(key);
      if (there === undefined) {
        there = nodes.push({ point: move.to, rounds }) - 1;
        known.set(key, there);
      }
      out.push({ to: there, time: move.time });
    }
    ways.push(out);
  }
  return { ways, goals: nodes.flatMap((node, index) => (node.point === to ? [index] : [])) };
}

function roundsAfter(
  rounds: ReadonlyMap<number, number>,
  { happening }: Move,
): ReadonlyMap<number, number> | undefined {
  switch (happening.type) {
    case 'enter-loop':
      return new Map(rounds).set(happening.loop, 1);
    case 'again': {
      const done = rounds.get(happening.loop) ?? 1;
      return done < happening.times ? new Map(rounds).set(happening.loop, done + 1) : undefined;
    }
    case 'leave-loop': {
      const done = rounds.get(happening.loop) ?? 1;
      if (happening.times !== undefined && done < happening.times) return undefined;
      const left = new Map(rounds);
      left.delete(happening.loop);
      return left;
    }
    default:
      return rounds;
  }
}

function thatLeadTo(ways: readonly (readonly Way[])[], goals: readonly number[]): Uint8Array {
  const before: number[][] = ways.map(() => []);
  ways.forEach((out, node) => {
    for (const way of out) before[way.to]?.push(node);
  });
  const leads = new Uint8Array(ways.length);
  const queue = [...goals];
  for (const goal of goals) leads[goal] = 1;
  for (let node = queue.pop(); node !== undefined; node = queue.pop()) {
    for (const earlier of before[node] ?? []) {
      if (leads[earlier]) continue;
      leads[earlier] = 1;
      queue.push(earlier);
    }
  }
  return leads;
}

/** The best sum from node 0 to each node; a sum that goes on improving round after round is infinite. */
function best(
  ways: readonly (readonly Way[])[],
  useful: Uint8Array,
  cost: (way: Way) => number,
  better: (a: number, b: number) => boolean,
): (number | undefined)[] {
  const order = flowOrder(ways.length, 0, (node) => (ways[node] ?? []).map((way) => way.to));
  const agenda = new Agenda((node) => order[node] as number);
  const sums: (number | undefined)[] = new Array(ways.length);
  const improvements = new Int32Array(ways.length);
  sums[0] = 0;
  agenda.add(0);
  for (let node = agenda.take(); node !== undefined; node = agenda.take()) {
    for (const way of ways[node] ?? []) {
      if (!useful[way.to]) continue;
      const sum = (sums[node] as number) + cost(way);
      const known = sums[way.to];
      if (known !== undefined && !better(sum, known)) continue;
      improvements[way.to] = (improvements[way.to] as number) + 1;
      const runsAway = (improvements[way.to] as number) > ways.length;
      sums[way.to] = runsAway ? Number.POSITIVE_INFINITY : sum;
      agenda.add(way.to);
    }
  }
  return sums;
}
