/** Which variables something later on the way still looks at. */
import type { Gauge, Item } from '../../../shared/card.ts';
import type { Move, Point } from '../../flow/graph.ts';
import type { NumberedVariable } from '../meaning/state.ts';
import { passesTime } from '../meaning/transition-facts.ts';
import { type FlowIndex, nowhere } from './flow-index.ts';
import type { MonitorName } from './monitor.ts';
import type { Question } from './question.ts';

/** Bit sets of variables. */
interface Effect {
  readonly uses: bigint;
  readonly sets: bigint;
}

interface Way {
  readonly to: Point;
  readonly effect?: Effect;
}

/** What liveness must know of a slice. */
export interface Sliced {
  readonly index: FlowIndex;
  readonly question: Question;
  readonly start: Point;
  readonly items: ReadonlySet<Item>;
  readonly target: (move: number) => Point;
  readonly matters: (move: number) => boolean;
  readonly isWatched: (move: number) => boolean;
  readonly ofItem: (item: Item) => number | undefined;
  readonly ofGauge: (gauge: Gauge) => number | undefined;
  readonly ofMonitor: (monitor: MonitorName) => number | undefined;
  readonly own: (type: NumberedVariable['type'], number: number) => number | undefined;
}

/** For each point that the slice keeps, the variables that are still looked at. */
export function liveVariables(slice: Sliced): ReadonlyMap<Point, bigint> {
  const ways = keptWays(slice);
  const { order } = slice.index;
  const points = [...ways.keys()].sort((a, b) => (order[b] as number) - (order[a] as number));
  const returnedTo = new Set<Point>();
  for (const [point, out] of ways)
    for (const { to } of out)
      if (to !== nowhere && (order[to] as number) <= (order[point] as number)) returnedTo.add(to);
  const live = new Map<Point, bigint>();
  for (let changed = true; changed; ) {
    changed = false;
    for (const point of points) {
      let mask = 0n;
      for (const { to, effect } of ways.get(point) as readonly Way[]) {
        const after = live.get(to) ?? 0n;
        mask |= effect ? effect.uses | (after & ~effect.sets) : after;
      }
      if (mask === (live.get(point) ?? 0n)) continue;
      live.set(point, mask);
      if (returnedTo.has(point)) changed = true;
    }
  }
  return live;
}

/** The graph as a path sees it after all skipping. */
function keptWays(slice: Sliced): Map<Point, Way[]> {
  const ways = new Map<Point, Way[]>();
  const queue = slice.start === nowhere ? [] : [slice.start];
  for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
    if (ways.has(point)) continue;
    const out = (slice.index.flow.from[point] as readonly number[]).map((move): Way => {
      const to = slice.target(move);
      return slice.matters(move) ? { to, effect: effectOf(slice, move) } : { to };
    });
    ways.set(point, out);
    for (const { to } of out) if (to !== nowhere) queue.push(to);
  }
  return ways;
}

function effectOf(slice: Sliced, index: number): Effect {
  const move = slice.index.flow.moves[index] as Move;
  const { happening } = move;
  let uses = bitsOf(slice, slice.index.thingsAt(index));
  let sets = 0n;
  switch (happening.type) {
    case 'set':
      sets |= bit(slice.ofItem(happening.item));
      break;
    case 'begin':
      uses |= bit(slice.ofItem(happening.item));
      break;
    case 'end':
      uses |= bit(slice.own('before-run', happening.run));
      sets |= bit(slice.ofItem(happening.item));
      break;
    case 'enter-loop':
      sets |= bit(slice.own('rounds', happening.loop));
      break;
    case 'again':
    case 'leave-loop':
      uses |= bit(slice.own('rounds', happening.loop));
      break;
    case 'call':
      for (const { item } of happening.assumes) sets |= bit(slice.ofItem(item));
      break;
    default:
  }
  if (passesTime(move)) {
    for (const item of slice.items) {
      if (item.kind.seen) sets |= bit(slice.ofItem(item));
      for (const { when } of item.may) if (when) uses |= bitsOf(slice, slice.index.things(when));
    }
  }
  if (slice.isWatched(index)) uses |= bitsOf(slice, slice.question);
  for (const monitor of slice.question.monitors) uses |= bit(slice.ofMonitor(monitor));
  // How long something has been so hangs on whether it was not so before.
  for (const { item } of slice.index.stays) uses |= bit(slice.ofItem(item));
  return { uses, sets };
}

function bit(variable: number | undefined): bigint {
  return variable === undefined ? 0n : 1n << BigInt(variable);
}

function bitsOf(slice: Sliced, { items, gauges }: { items: Iterable<Item>; gauges: Iterable<Gauge> }): bigint {
  let bits = 0n;
  for (const item of items) bits |= bit(slice.ofItem(item));
  for (const gauge of gauges) bits |= bit(slice.ofGauge(gauge));
  return bits;
}
