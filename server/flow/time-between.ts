import { getOrInsert } from '../../shared/maps.ts';
import { finish } from '../../shared/parts.ts';
import { groupByPoint, type Move, type Point } from './graph.ts';
import { mostUnrolled } from './limits.ts';
import { reached } from './order.ts';
import { settle } from './settle.ts';
import { noTicks, type Ticks } from './time.ts';

interface Way {
  readonly to: number;
  readonly time: Ticks;
}

/** A point with the rounds done so far of the loops that it is in. */
interface Unrolled {
  readonly point: Point;
  readonly rounds: Rounds;
}

/** For each loop the number of the round that runs. */
export type Rounds = ReadonlyMap<number, number>;

/**
 * The least and the most time from one point to another over all ways, counted loops with their rounds. A round that takes
 * time and is not counted makes the most infinite, and so do more rounds than anybody goes through. Undefined where no way leads there.
 */
export function timeBetween(moves: readonly Move[], from: Point, to: Point): Ticks | undefined {
  const unrolled = unrollLoops(moves, [from], to);
  if (!unrolled) return { least: 0, most: Number.POSITIVE_INFINITY };
  const { nodes, ways } = unrolled;
  const goals = nodes.flatMap((node, index) => (node.point === to ? [index] : []));
  const useful = thatLeadTo(ways, goals);
  if (!useful[0]) return undefined;
  const { least, most } = bestTimes(ways, useful);
  return {
    least: Math.min(...goals.map((goal) => least[goal] ?? Number.POSITIVE_INFINITY)),
    most: Math.max(...goals.map((goal) => most[goal] ?? 0)),
  };
}

/** As `timeBetween`, from the nearest of several points to every point, where the rounds can be gone through; to one in a loop, for its first round. */
export function timesFrom(moves: readonly Move[], from: readonly Point[]): ReadonlyMap<Point, Ticks> {
  const unrolled = unrollLoops(moves, from);
  if (!unrolled) return new Map();
  const { nodes, ways } = unrolled;
  const { least, most } = bestTimes(ways, new Uint8Array(nodes.length).fill(1));
  const times = new Map<Point, Ticks & { readonly round: number }>();
  nodes.forEach(({ point, rounds }, node) => {
    const round = [...rounds.values()].reduce((sum, one) => sum + one, 0);
    const known = times.get(point);
    const here = { least: least[node] ?? 0, most: most[node] ?? 0, round };
    if (!known || round < known.round) times.set(point, here);
  });
  return times;
}

function bestTimes(ways: readonly (readonly Way[])[], useful: Uint8Array) {
  return {
    least: best(
      ways,
      useful,
      (way) => way.time.least,
      (a, b) => a < b,
    ),
    most: best(
      ways,
      useful,
      (way) => way.time.most,
      (a, b) => a > b,
    ),
  };
}

const nowhere: Point = -1;

/** Points with the rounds done so far. Node 0 is before the points to begin at; nothing leads on from `to`. Undefined where they are too many. */
function unrollLoops(
  moves: readonly Move[],
  from: readonly Point[],
  to?: Point,
): { nodes: readonly Unrolled[]; ways: Way[][] } | undefined {
  const byPoint = groupByPoint(moves);
  const nodes: Unrolled[] = [{ point: nowhere, rounds: new Map() }];
  const known = new Map<string, number>();
  const nodeOf = (point: Point, rounds: Rounds): number => {
    const key = [point, ...[...rounds].flat()].join(' ');
    return getOrInsert(known, key, () => nodes.push({ point, rounds }) - 1);
  };
  const ways: Way[][] = [from.map((point) => ({ to: nodeOf(point, new Map()), time: noTicks }))];
  for (let node = 1; node < nodes.length; node++) {
    if (nodes.length > mostUnrolled) return undefined;
    const here = nodes[node] as Unrolled;
    const out: Way[] = [];
    for (const move of here.point === to ? [] : (byPoint.get(here.point) ?? [])) {
      const rounds = roundsAfter(here.rounds, move);
      if (rounds) out.push({ to: nodeOf(move.to, rounds), time: move.time });
    }
    ways.push(out);
  }
  return { nodes, ways };
}

/** Undefined where the loop does not let the move be taken yet, or any more. */
export function roundsAfter(rounds: Rounds, { happening }: Move): Rounds | undefined {
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
  return reached(ways.length, goals, (node) => before[node]);
}

/** The best sum from node 0 to each node; a sum that goes on improving round after round is infinite. */
function best(
  ways: readonly (readonly Way[])[],
  useful: Uint8Array,
  cost: (way: Way) => number,
  better: (a: number, b: number) => boolean,
): (number | undefined)[] {
  return finish(
    settle<number, Way>(ways, ({ to }) => to, {
      starts: new Map([[0, 0]]),
      along: (sum, way) => (useful[way.to] ? sum + cost(way) : undefined),
      join: (known, sum) => (better(sum, known) ? sum : known),
      mostGrowths: () => ways.length,
      widen: () => Number.POSITIVE_INFINITY,
    }),
  );
}
