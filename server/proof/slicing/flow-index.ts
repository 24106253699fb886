import type { Condition, Gauge, Item } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { ByPoint } from '../../flow/by-point.ts';
import { callKey } from '../../flow/calls.ts';
import { onCircles } from '../../flow/components.ts';
import { type Flow, type Happening, type Move, type Point, togetherOf } from '../../flow/graph.ts';
import { flowOrder, reached } from '../../flow/order.ts';
import { boundsIn, GaugeRegions } from '../meaning/regions.ts';
import { lastingTerms, type StateTerm, type Things, thingsIn } from '../meaning/things.ts';
import { endsReading, passesTime, touches } from '../meaning/transition-facts.ts';

const nothing: Things = { items: new Set(), gauges: new Set() };

/** Beyond it nothing that a question looks at can happen. */
export const nowhere = -1;

/** What all slices of one flow share: which moves touch or look at what. Moves are numbers, their places in `flow.moves`. */
export class FlowIndex {
  /** For each point its place in flow order; -1 where no path as it is written comes to it. */
  readonly order: Int32Array;
  /** The points that can be reached, in flow order. */
  readonly ordered: Int32Array;
  readonly from: ByPoint;
  readonly into: ByPoint;
  /** For each move the points that it leads from and to: looked up more often than all else of it. */
  readonly fromOf: Int32Array;
  readonly toOf: Int32Array;
  /** 1 for a point to which a move leads back, against the flow order. */
  readonly isReturnedTo: Uint8Array;
  /** Conditional moves that are possible in every state in which a path comes to them: no look at an item decides them. */
  readonly free = new Set<number>();
  readonly passingTime: readonly number[];
  /** Moves that take time. */
  readonly takingTime: readonly number[];
  readonly touching: readonly number[];
  /** Moves by which lanes begin, come together or are left. */
  readonly betweenLanes: readonly number[];
  /** 1 for a move that is one of several ways on: conditional, or a round. */
  readonly decides: Uint8Array;
  /** The points from which such moves go, in flow order. */
  readonly parting: Int32Array;
  /** 1 for a conditional move at which a path may be barred, unless it is free. */
  private readonly bars: Uint8Array;
  /**
   * For each point the moves by which a lane goes on in its only way. Where such a move changes nothing, a path may take it
   * first: in whatever order the other lanes come, the outcome is the same. Not so where the lane then goes on at once, and
   * the others must wait.
   */
  readonly onlyWays: ReadonlyMap<Point, readonly number[]>;
  /** The first move with the same place, thing and call: copies in interleavings and rounds are one move to a writer. */
  readonly site: readonly number[];
  /** For each run where it happens: of two runs in one lane the first is over before the other begins. */
  readonly trackOfRun: readonly string[];
  /** Likewise for each loop. */
  readonly trackOfLoop: readonly string[];
  /** All conditions that may be held against a gauge. */
  private readonly conditions: readonly Condition[];
  private bounds: ReturnType<typeof boundsIn> | undefined;
  private readonly regionsOf = new Map<Gauge, GaugeRegions>();
  private readonly endings = new Map<Gauge, readonly number[]>();
  /** The item and state of every condition that asks how long something has been so. */
  readonly stays: readonly StateTerm[];
  private readonly thingsOfMove: readonly Things[];
  private readonly ofType = new Map<Happening['type'], number[]>();
  private readonly ofItem = new Map<Item, number[]>();
  private readonly ofGauge = new Map<Gauge, number[]>();
  private readonly ofLoop = new Map<number, number[]>();
  private readonly bodies = new Map<number, readonly number[]>();
  private readonly sinceTouched = new Map<Item, readonly number[]>();
  private readonly known = new Map<Condition, Things>();

  constructor(
    readonly flow: Flow,
    conditions: readonly Condition[],
  ) {
    const { moves, from, points, start } = flow;
    this.order = flowOrder(points, start, (point) => (from[point] ?? []).map((move) => (moves[move] as Move).to));
    this.ordered = new Int32Array(this.order.filter((place) => place !== -1).length);
    for (const [point, place] of this.order.entries()) if (place !== -1) this.ordered[place] = point;
    this.fromOf = Int32Array.from(moves, (move) => move.from);
    this.toOf = Int32Array.from(moves, (move) => move.to);
    this.from = new ByPoint(points, this.fromOf);
    this.into = new ByPoint(points, this.toOf);
    this.isReturnedTo = new Uint8Array(points);
    for (const move of moves)
      if ((this.order[move.to] as number) <= (this.order[move.from] as number)) this.isReturnedTo[move.to] = 1;
    this.thingsOfMove = moves.map(({ happening }) =>
      happening.type === 'assume' ? this.things(happening.condition) : nothing,
    );
    moves.forEach((move, index) => {
      this.enter(move, index);
    });
    this.onlyWays = new Map(from.flatMap((out, point) => onlyWays(point, out, flow, this.order)));
    this.site = sites(moves);
    this.trackOfRun = tracks(flow, flow.runs.length, 'begin');
    this.trackOfLoop = tracks(flow, flow.loops.length, 'enter-loop').map(
      (track, loop) => `${track} ${flow.loops[loop]}`,
    );
    const where = (fits: (move: Move) => boolean) => {
      const found: number[] = [];
      moves.forEach((move, index) => {
        if (fits(move)) found.push(index);
      });
      return found;
    };
    this.takingTime = where(({ time }) => time.most > 0);
    this.decides = Uint8Array.from(moves, ({ happening: { type } }) =>
      type === 'assume' || type === 'again' || type === 'leave-loop' ? 1 : 0,
    );
    this.parting = this.ordered.filter((point) => from[point]?.some((move) => this.decides[move]));
    this.bars = this.barring();
    this.passingTime = where(passesTime);
    this.betweenLanes = where(
      ({ happening: { type }, leaves }) => type === 'fork' || type === 'join' || leaves !== undefined,
    );
    this.touching = where(({ happening }) => touches(happening));
    const asked = moves.flatMap(({ happening }) => (happening.type === 'assume' ? [happening.condition] : []));
    this.conditions = [...new Set([...conditions, ...asked])];
    this.stays = this.conditions.flatMap(lastingTerms);
  }

  /** The moves at which one of these happens. */
  at(...types: readonly Happening['type'][]): readonly number[] {
    return types.flatMap((type) => this.ofType.get(type) ?? []);
  }

  regions(gauge: Gauge): GaugeRegions {
    return getOrInsert(this.regionsOf, gauge, () => {
      this.bounds ??= this.conditions.flatMap(boundsIn);
      return GaugeRegions.of(this.bounds.flatMap((one) => (one.gauge === gauge ? one.bound : [])));
    });
  }

  /** Its bounds are others from now on. Tells whether they may lie otherwise to each other. */
  forget(gauge: Gauge): boolean {
    const before = this.regionsOf.get(gauge);
    this.bounds = undefined;
    this.regionsOf.delete(gauge);
    return before?.order !== this.regions(gauge).order;
  }

  /** The moves that end a reading of a gauge which may still stand there, in one order of the lanes at least. */
  endingsOf(gauge: Gauge): readonly number[] {
    return getOrInsert(this.endings, gauge, () => {
      const isEnding = (index: number) => endsReading(gauge, (this.flow.moves[index] as Move).happening);
      const mayEnd = [...this.passingTime, ...this.at('forget', 'again', 'meanwhile')];
      return this.leaving(this.whereReadingStands(gauge), mayEnd.filter(isEnding));
    });
  }

  /** Those of the moves that leave from one of the points. What does so in one order of the lanes does not come before it for nothing in another. */
  private leaving(points: Uint8Array, moves: readonly number[]): readonly number[] {
    const leaves = (index: number) => points[this.fromOf[index] as Point] === 1;
    const inLanes = new Set(
      moves.flatMap((index) => (this.flow.moves[index]?.lane && leaves(index) ? [this.site[index]] : [])),
    );
    return moves.filter((index) => leaves(index) || inLanes.has(this.site[index]));
  }

  /** 1 for a point to which a reading of the gauge may come, before something ends it. */
  private whereReadingStands(gauge: Gauge): Uint8Array {
    const { moves, from, points } = this.flow;
    const onward = (index: number) => (moves[index] as Move).to;
    const lasts = (index: number) => !endsReading(gauge, (moves[index] as Move).happening);
    return reached(points, this.movesOfGauge(gauge).map(onward), (point) => from[point]?.filter(lasts).map(onward));
  }

  /** A path may be barred here: no way beside this one is open where it is not, or the other way only leads round to it again. */
  mayBar(move: number): boolean {
    return this.bars[move] === 1 && !this.free.has(move);
  }

  private barring(): Uint8Array {
    const { moves, from, points } = this.flow;
    // Counted rounds come to an end and lead nobody round for ever.
    const circling = onCircles(points, (point) =>
      (from[point] ?? []).flatMap((index) => {
        const { happening, to } = moves[index] as Move;
        return happening.type === 'again' ? [] : [to];
      }),
    );
    const bars = new Uint8Array(moves.length);
    for (const index of this.at('assume')) {
      const { happening, from: point } = moves[index] as Move;
      if (happening.type !== 'assume') continue;
      const { condition, holds } = happening;
      const isPaired = from[point]?.some((other) => {
        const beside = (moves[other] as Move).happening;
        return beside.type === 'assume' && beside.condition === condition && beside.holds !== holds;
      });
      if (!isPaired || circling[point] === 1) bars[index] = 1;
    }
    return bars;
  }

  /** What a condition looks at. */
  things(condition: Condition): Things {
    return getOrInsert(this.known, condition, () => thingsIn(condition));
  }

  /** What the condition of a conditional move looks at. */
  thingsAt(move: number): Things {
    return this.thingsOfMove[move] as Things;
  }

  /** The moves that set an item, call for it or ask for it. */
  movesOfItem = (item: Item): readonly number[] => this.ofItem.get(item) ?? [];

  /** The moves that ask for a gauge. */
  movesOfGauge(gauge: Gauge): readonly number[] {
    return this.ofGauge.get(gauge) ?? [];
  }

  movesOfLoop(loop: number): readonly number[] {
    return this.ofLoop.get(loop) ?? [];
  }

  /** 1 for each point that a path may come to after one of these moves. */
  after(moves: readonly number[]): Uint8Array {
    const to = (move: number) => this.toOf[move] as Point;
    return reached(this.flow.points, moves.map(to), (point) => this.flow.from[point]?.map(to));
  }

  /** 1 for each point from which a path may come to one of these moves. */
  before(moves: readonly number[]): Uint8Array {
    const from = (move: number) => this.fromOf[move] as Point;
    return reached(this.flow.points, moves.map(from), (point) => this.into.of(point).map(from));
  }

  /** As long as nobody has looked at an item of which nothing is known, or set it, nothing can happen to it. */
  passingTimeSinceTouched(item: Item): readonly number[] {
    return getOrInsert(this.sinceTouched, item, () =>
      this.leaving(this.after(this.movesOfItem(item)), this.passingTime),
    );
  }

  /** The moves by which a path may come round again, and that by which it does: not those that leave the loop for good. */
  bodyOfLoop(loop: number): readonly number[] {
    return getOrInsert(this.bodies, loop, () => this.findBody(loop));
  }

  private findBody(loop: number): number[] {
    const { flow, fromOf, toOf, into } = this;
    const rounds = this.movesOfLoop(loop).filter((move) => flow.moves[move]?.happening.type === 'again');
    const heads = new Set(rounds.map((move) => toOf[move] as Point));
    const comesRound = reached(
      flow.points,
      rounds.map((move) => fromOf[move] as Point),
      (point) => (heads.has(point) ? [] : into.of(point).map((move) => fromOf[move] as Point)),
    );
    return flow.moves.flatMap(({ from, to }, move) => (comesRound[from] && comesRound[to] ? [move] : []));
  }

  private enter({ happening }: Move, index: number): void {
    const { items, gauges } = this.thingsAt(index);
    getOrInsert(this.ofType, happening.type, () => []).push(index);
    for (const item of [...items, ...itemsOf(happening)]) getOrInsert(this.ofItem, item, () => []).push(index);
    for (const gauge of gauges) getOrInsert(this.ofGauge, gauge, () => []).push(index);
    if ('loop' in happening) getOrInsert(this.ofLoop, happening.loop, () => []).push(index);
  }
}

/** The items that it sets, calls for, or takes to be in a state. */
function itemsOf(happening: Happening): readonly Item[] {
  if ('item' in happening) return [happening.item];
  const named = 'changes' in happening ? happening.changes : 'assumes' in happening ? happening.assumes : [];
  return named.map(({ item }) => item);
}

function onlyWays(
  point: Point,
  out: readonly number[],
  { moves, from: movesFrom }: Flow,
  order: Int32Array,
): [Point, number[]][] {
  const lanes = new Map<string, number[]>();
  for (const index of out) {
    const { lane } = moves[index] as Move;
    if (lane) getOrInsert(lanes, `${togetherOf(lane)} ${lane.index}`, () => []).push(index);
  }
  const ways = [...lanes.values()].flatMap(([only, ...others]) => {
    const { from, to, lane } = moves[only as number] as Move;
    const onward = (order[to] as number) > (order[from] as number);
    const atOnce = movesFrom[to]?.some((next) => moves[next]?.atOnce);
    return others.length === 0 && lane?.inside && onward && !atOnce ? [only as number] : [];
  });
  return ways.length > 0 ? [[point, ways]] : [];
}

function sites(moves: readonly Move[]): number[] {
  const first = new Map<string, number>();
  return moves.map(({ place, happening, call }, index) => {
    const thing = 'item' in happening ? happening.item.id : '';
    const key = `${place.file} ${place.start} ${place.end} ${thing} ${call ? callKey(call) : ''}`;
    const known = first.get(key);
    if (known === undefined) first.set(key, index);
    return known ?? index;
  });
}

/** Where each run or loop begins. Where interleavings are blended, moves come in any order: there every one is by itself. */
function tracks({ moves, blended }: Flow, count: number, type: 'begin' | 'enter-loop'): string[] {
  const tracks = Array.from({ length: count }, (_, number) => `${number}`);
  for (const { happening, lane } of blended ? [] : moves) {
    if (happening.type !== type) continue;
    const number = happening.type === 'begin' ? happening.run : happening.loop;
    tracks[number] = lane ? `lane ${togetherOf(lane)} ${lane.index}` : 'card';
  }
  return tracks;
}
