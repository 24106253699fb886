import type { Condition, Gauge, Item } from '../../shared/card.ts';
import type { Flow, Move, Point } from '../flow/graph.ts';
import { flowOrder } from '../flow/order.ts';
import { boundsIn } from './regions.ts';
import { type Things, thingsIn } from './things.ts';
import { passesTime } from './transition-facts.ts';

const nothing: Things = { items: new Set(), gauges: new Set() };

/** What all slices of one flow share: which moves touch or look at what. Moves are numbers, their places in `flow.moves`. */
export class FlowIndex {
  readonly order: Int32Array;
  /** The points that can be reached, in flow order. */
  readonly ordered: readonly Point[];
  readonly into: readonly (readonly number[])[];
  /** Conditional moves that are possible in every state in which a path comes to them: no look at an item decides them. */
  readonly free = new Set<number>();
  readonly passingTime: readonly number[];
  readonly jumpsBack: readonly number[];
  readonly waits: readonly number[];
  readonly touching: readonly number[];
  /** The first move with the same place and thing: copies in interleavings and rounds are one move to a writer. */
  readonly site: readonly number[];
  readonly bounds: ReturnType<typeof boundsIn>;
  private readonly thingsOfMove: readonly Things[];
  private readonly ofItem = new Map<Item, number[]>();
  private readonly ofGauge = new Map<Gauge, number[]>();
  private readonly ofLoop = new Map<number, number[]>();
  private readonly known = new Map<Condition, Things>();

  constructor(
    readonly flow: Flow,
    conditions: readonly Condition[],
  ) {
    const { moves, from, points, start } = flow;
    this.order = flowOrder(points, start, (point) => (from[point] ?? []).map((move) => (moves[move] as Move).to));
    this.ordered = [...this.order.keys()]
      .filter((point) => this.order[point] !== -1)
      .sort((a, b) => (this.order[a] as number) - (this.order[b] as number));
    const into: number[][] = Array.from({ length: points }, () => []);
    moves.forEach((move, index) => {
      into[move.to]?.push(index);
    });
    this.into = into;
    this.thingsOfMove = moves.map(({ happening }) =>
      happening.type === 'assume' ? this.things(happening.condition) : nothing,
    );
    moves.forEach((move, index) => {
      this.enter(move, index);
    });
    this.site = sites(moves);
    const where = (fits: (move: Move) => boolean) => moves.flatMap((move, index) => (fits(move) ? [index] : []));
    this.passingTime = where(passesTime);
    this.jumpsBack = where(({ happening }) => happening.type === 'forget');
    this.waits = where(({ happening }) => happening.type === 'moment' && happening.cause === 'wait');
    this.touching = where(({ happening }) => happening.type === 'set' || happening.type === 'begin');
    const inFlow = moves.flatMap(({ happening }) => (happening.type === 'assume' ? [happening.condition] : []));
    this.bounds = [...new Set([...conditions, ...inFlow])].flatMap(boundsIn);
  }

  /** What a condition looks at. */
  things(condition: Condition): Things {
    let things = this.known.get(condition);
    if (!things) {
      things = thingsIn(condition);
      this.known.set(condition, things);
    }
    return things;
  }

  /** What the condition of a conditional move looks at. */
  thingsAt(move: number): Things {
    return this.thingsOfMove[move] as Things;
  }

  /** The moves that set an item, call for it or ask for it. */
  movesOfItem(item: Item): readonly number[] {
    return this.ofItem.get(item) ?? [];
  }

  /** The moves that ask for a gauge. */
  movesOfGauge(gauge: Gauge): readonly number[] {
    return this.ofGauge.get(gauge) ?? [];
  }

  movesOfLoop(loop: number): readonly number[] {
    return this.ofLoop.get(loop) ?? [];
  }

  private enter({ happening }: Move, index: number): void {
    const { items, gauges } = this.thingsAt(index);
    for (const item of items) push(this.ofItem, item, index);
    for (const gauge of gauges) push(this.ofGauge, gauge, index);
    switch (happening.type) {
      case 'set':
      case 'begin':
      case 'end':
        push(this.ofItem, happening.item, index);
        return;
      case 'fork':
      case 'join':
        for (const { item } of happening.changes) push(this.ofItem, item, index);
        return;
      case 'call':
        for (const { item } of happening.assumes) push(this.ofItem, item, index);
        return;
      case 'enter-loop':
      case 'again':
      case 'leave-loop':
        push(this.ofLoop, happening.loop, index);
        return;
      default:
    }
  }
}

function sites(moves: readonly Move[]): number[] {
  const first = new Map<string, number>();
  return moves.map(({ place, happening }, index) => {
    const key = `${place.file} ${place.start} ${place.end} ${'item' in happening ? happening.item.id : ''}`;
    const known = first.get(key);
    if (known === undefined) first.set(key, index);
    return known ?? index;
  });
}

function push<Key>(map: Map<Key, number[]>, key: Key, value: number): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}
