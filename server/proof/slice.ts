/**
 * The part of a card that one question depends on: which items, gauges and rounds must be known, and a graph in which all
 * that changes nothing for the question is skipped. The slice is where the growth of the work goes.
 */
import type { Condition, Gauge, Item } from '../../shared/card.ts';
import { Agenda, flowOrder } from '../flow/order.ts';
import type { Flow, Move, Point } from '../flow/graph.ts';
import type { Variables } from './evaluate.ts';
import type { Question } from './question.ts';
import { GaugeRegions, boundsIn } from './regions.ts';
import { allStates, type State, type Variable } from './state.ts';
import { thingsIn, type Things } from './things.ts';

/** Beyond it nothing that the question looks at can happen. */
export const nowhere = -1;

/** What every slice of one flow shares. */
export class FlowIndex {
  readonly order: Int32Array;
  private readonly looked = new Map<Condition, Things>();
  readonly into: readonly (readonly number[])[];

  constructor(readonly flow: Flow) {
    this.order = flowOrder(flow.points, flow.start, (point) => (flow.from[point] ?? []).map((move) => flow.moves[move]?.to as Point));
    const into: number[][] = Array.from({ length: flow.points }, () => []);
    flow.moves.forEach((move, index) => into[move.to]?.push(index));
    this.into = into;
  }

  things(condition: Condition): Things {
    let things = this.looked.get(condition);
    if (!things) {
      things = thingsIn(condition);
      this.looked.set(condition, things);
    }
    return things;
  }
}

export class Slice implements Variables {
  readonly variables: Variable[] = [];
  /** Where a path really stands after all skipping; `nowhere` where nothing more is asked. */
  readonly skip: Int32Array;
  private readonly items = new Set<Item>();
  private readonly gauges = new Set<Gauge>();
  private readonly loops = new Set<number>();
  private readonly itemVariables = new Map<Item, number>();
  private readonly gaugeVariables = new Map<Gauge, number>();
  private readonly ownVariables = new Map<string, number>();
  private readonly gaugeRegions = new Map<Gauge, GaugeRegions>();
  private readonly useful: Uint8Array;
  private readonly liveAt: bigint[];
  private drifting = false;

  constructor(
    readonly index: FlowIndex,
    readonly question: Question,
    conditions: readonly Condition[],
  ) {
    for (const item of question.items) this.addItem(item);
    for (const gauge of question.gauges) this.gauges.add(gauge);
    this.useful = this.pointsBeforeLooks();
    this.skip = this.close();
    this.layVariables(conditions);
    this.liveAt = this.liveness();
  }

  get flow(): Flow {
    return this.index.flow;
  }

  ofItem = (item: Item): number | undefined => this.itemVariables.get(item);
  ofGauge = (gauge: Gauge): number | undefined => this.gaugeVariables.get(gauge);
  regions = (gauge: Gauge): GaugeRegions => this.gaugeRegions.get(gauge) ?? GaugeRegions.of([]);
  own = (type: Variable['type'], number = 0): number | undefined => this.ownVariables.get(`${type} ${number}`);

  get itemsInSlice(): ReadonlySet<Item> {
    return this.items;
  }

  get gaugesInSlice(): ReadonlySet<Gauge> {
    return this.gauges;
  }

  isUseful(point: Point): boolean {
    return this.useful[point] === 1;
  }

  /** Whether the move can change the state or is looked at. */
  matters(move: Move): boolean {
    if (this.question.watches(move)) return true;
    const { happening } = move;
    switch (happening.type) {
      case 'assume': {
        const { items, gauges } = this.index.things(happening.condition);
        return intersects(items, this.items) || intersects(gauges, this.gauges);
      }
      case 'set':
      case 'begin':
        return this.items.has(happening.item) || this.drifting || this.forgetsReadings(happening.item) || this.tracks('untouched');
      case 'end':
        return this.items.has(happening.item) || this.drifting;
      case 'moment':
        return this.drifting || this.gauges.size > 0 || (happening.cause === 'wait' && this.tracks('untouched'));
      case 'forget':
        return this.gauges.size > 0;
      case 'enter-loop':
      case 'again':
      case 'leave-loop':
        return this.loops.has(happening.loop);
      case 'stopping':
        return this.tracks('stop-site');
      case 'fork':
      case 'join':
        return happening.changes.some(({ item }) => this.items.has(item));
      case 'call':
        return happening.assumes.some(({ item }) => this.items.has(item));
      default:
        return false;
    }
  }

  private tracks(type: Variable['type']): boolean {
    return this.question.own.some((variable) => variable.type === type);
  }

  private forgetsReadings(item: Item): boolean {
    for (const gauge of this.gauges) if (!gauge.movedBy || gauge.movedBy.includes(item)) return true;
    return false;
  }

  private addItem(item: Item): void {
    if (this.items.has(item)) return;
    this.items.add(item);
    if (item.kind.seen || item.may.length > 0) this.drifting = true;
    for (const { when } of item.may) if (when) this.addThings(this.index.things(when));
  }

  private addThings({ items, gauges }: Things): void {
    for (const item of items) this.addItem(item);
    for (const gauge of gauges) this.gauges.add(gauge);
  }

  private pointsBeforeLooks(): Uint8Array {
    const useful = new Uint8Array(this.flow.points);
    const queue: Point[] = [];
    const mark = (point: Point) => {
      if (useful[point]) return;
      useful[point] = 1;
      queue.push(point);
    };
    for (const move of this.flow.moves) if (this.question.watches(move)) mark(move.from);
    for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
      for (const move of this.index.into[point] ?? []) mark((this.flow.moves[move] as Move).from);
    }
    return useful;
  }

  /** Adds what decides where the paths go until nothing new decides. */
  private close(): Int32Array {
    for (;;) {
      const size = this.items.size + this.gauges.size + this.loops.size;
      this.addPartners();
      const skip = this.collapse();
      for (let point = 0; point < skip.length; point++) {
        if (skip[point] === point) this.addDeciders(point, skip);
      }
      if (size === this.items.size + this.gauges.size + this.loops.size) return skip;
    }
  }

  /** What a condition tells of a tracked item may hang on the other items that it names. */
  private addPartners(): void {
    for (const { happening, from } of this.flow.moves) {
      if (happening.type !== 'assume' || !this.useful[from]) continue;
      const things = this.index.things(happening.condition);
      if (intersects(things.items, this.items) || intersects(things.gauges, this.gauges)) this.addThings(things);
    }
  }

  private addDeciders(point: Point, skip: Int32Array): void {
    const moves = this.flow.from[point] ?? [];
    const targets = new Set(moves.map((move) => this.target(this.flow.moves[move] as Move, skip)));
    const alike = targets.size < 2 && !moves.some((move) => this.matters(this.flow.moves[move] as Move));
    if (alike) return;
    for (const index of moves) {
      const { happening } = this.flow.moves[index] as Move;
      if (happening.type === 'assume') this.addThings(this.index.things(happening.condition));
      if (happening.type === 'again' || happening.type === 'leave-loop') this.loops.add(happening.loop);
    }
  }

  private target(move: Move, skip: Int32Array): number {
    return this.useful[move.to] ? (skip[move.to] as number) : nowhere;
  }

  /** For each point the one place where all its ways come together again before anything matters, or the point itself. */
  private collapse(): Int32Array {
    const unseen = -2;
    const skip = new Int32Array(this.flow.points).fill(unseen);
    const agenda = new Agenda((point) => -(this.index.order[point] as number));
    for (let point = 0; point < this.flow.points; point++) {
      if (!this.useful[point]) skip[point] = nowhere;
      else if (this.index.order[point] !== -1) agenda.add(point);
    }
    for (let point = agenda.take(); point !== undefined; point = agenda.take()) {
      const found = this.meetingPlace(point, skip, unseen);
      if (found === skip[point]) continue;
      skip[point] = found;
      for (const move of this.index.into[point] ?? []) {
        const { from } = this.flow.moves[move] as Move;
        if (this.useful[from] && this.index.order[from] !== -1) agenda.add(from);
      }
    }
    for (let point = 0; point < skip.length; point++) if (skip[point] === unseen) skip[point] = nowhere;
    return skip;
  }

  private meetingPlace(point: Point, skip: Int32Array, unseen: number): number {
    if (skip[point] === point) return point;
    let meeting = unseen;
    for (const index of this.flow.from[point] ?? []) {
      const move = this.flow.moves[index] as Move;
      if (this.matters(move)) return point;
      const target = this.target(move, skip);
      if (target === unseen || target === point) continue;
      if (meeting !== unseen && meeting !== target) return point;
      meeting = target;
    }
    return meeting;
  }

  private layVariables(conditions: readonly Condition[]): void {
    const add = (variable: Variable): number => this.variables.push(variable) - 1;
    for (const item of this.items) this.itemVariables.set(item, add({ type: 'item', item, all: allStates(item) }));
    this.flow.runs.forEach((item, run) => {
      if (this.items.has(item)) this.ownVariables.set(`before-run ${run}`, add({ type: 'before-run', run, item }));
    });
    for (const loop of this.loops) this.ownVariables.set(`rounds ${loop}`, add({ type: 'rounds', loop }));
    for (const variable of this.question.own) this.ownVariables.set(`${variable.type} 0`, add(variable));
    this.layGauges(conditions, add);
  }

  private layGauges(conditions: readonly Condition[], add: (variable: Variable) => number): void {
    const bounds = [...conditions, ...this.flow.moves.flatMap(({ happening }) => (happening.type === 'assume' ? [happening.condition] : []))]
      .flatMap((condition) => (this.gauges.size > 0 ? boundsIn(condition) : []));
    for (const gauge of this.gauges) {
      const regions = GaugeRegions.of(bounds.filter((bound) => bound.gauge === gauge).map((bound) => bound.bound));
      this.gaugeRegions.set(gauge, regions);
      this.gaugeVariables.set(gauge, add({ type: 'gauge', gauge, all: regions.all }));
    }
  }

  // -------------------------------------------------------------- liveness

  /** Which variables something later on the way still looks at, for each point. */
  private liveness(): bigint[] {
    const live: bigint[] = new Array(this.flow.points).fill(0n);
    const effects = this.flow.moves.map((move) => (this.useful[move.from] && this.matters(move) ? this.effect(move) : undefined));
    const agenda = new Agenda((point) => -(this.index.order[point] as number));
    for (let point = 0; point < this.flow.points; point++) if (this.skip[point] === point) agenda.add(point);
    const before: number[][] = Array.from({ length: this.flow.points }, () => []);
    for (const move of this.flow.moves) {
      const to = this.skip[move.to] as number;
      if (to !== nowhere && this.skip[move.from] === move.from) before[to]?.push(move.from);
    }
    for (let point = agenda.take(); point !== undefined; point = agenda.take()) {
      let mask = 0n;
      for (const index of this.flow.from[point] ?? []) {
        const move = this.flow.moves[index] as Move;
        const to = this.skip[move.to] as number;
        const after = to === nowhere ? 0n : (live[to] as bigint);
        const effect = effects[index];
        mask |= effect ? effect.uses | (after & ~effect.sets) : after;
      }
      if (mask === live[point]) continue;
      live[point] = mask;
      for (const from of before[point] ?? []) agenda.add(from);
    }
    return live;
  }

  private bit(variable: number | undefined): bigint {
    return variable === undefined ? 0n : 1n << BigInt(variable);
  }

  private bitsOf(things: Things): bigint {
    let bits = 0n;
    for (const item of things.items) bits |= this.bit(this.ofItem(item));
    for (const gauge of things.gauges) bits |= this.bit(this.ofGauge(gauge));
    return bits;
  }

  private effect(move: Move): { uses: bigint; sets: bigint } {
    const { happening } = move;
    let uses = 0n;
    let sets = 0n;
    switch (happening.type) {
      case 'assume':
        uses |= this.bitsOf(this.index.things(happening.condition));
        break;
      case 'set':
        sets |= this.bit(this.ofItem(happening.item));
        break;
      case 'begin':
        if (this.items.has(happening.item)) uses |= this.bit(this.ofItem(happening.item));
        sets |= this.bit(this.own('before-run', happening.run));
        break;
      case 'end':
        uses |= this.bit(this.own('before-run', happening.run));
        sets |= this.bit(this.ofItem(happening.item));
        break;
      case 'enter-loop':
        sets |= this.bit(this.own('rounds', happening.loop));
        break;
      case 'again':
      case 'leave-loop':
        uses |= this.bit(this.own('rounds', happening.loop));
        break;
      case 'call':
        for (const { item } of happening.assumes) uses |= this.bit(this.ofItem(item));
        break;
      default:
    }
    if (passesTime(move)) {
      for (const item of this.items) {
        if (item.kind.seen) sets |= this.bit(this.ofItem(item));
        for (const { when } of item.may) if (when) uses |= this.bitsOf(this.index.things(when));
      }
    }
    if (this.question.watches(move)) {
      for (const item of this.question.items) uses |= this.bit(this.ofItem(item));
      for (const gauge of this.question.gauges) uses |= this.bit(this.ofGauge(gauge));
    }
    for (const variable of this.question.own) uses |= this.bit(this.own(variable.type));
    return { uses, sets };
  }

  /** The state with all that nothing later looks at made the same. */
  forgetUnused(point: Point, state: State): State {
    const live = this.liveAt[point] as bigint;
    return state.map((value, index) => ((live >> BigInt(index)) & 1n ? value : this.unusedValue(index)));
  }

  private unusedValue(index: number): number {
    const variable = this.variables[index] as Variable;
    return variable.type === 'item' || variable.type === 'gauge' ? variable.all : 0;
  }

  /** Whether something looks at the state in which the item begins. */
  isLiveAtStart(item: Item): boolean {
    const variable = this.ofItem(item);
    const point = this.skip[this.flow.start] as number;
    return variable !== undefined && point !== nowhere && ((this.liveAt[point] as bigint) >> BigInt(variable)) % 2n === 1n;
  }
}

/** After such a move, what is only seen or moves by itself may have changed. */
export function passesTime({ happening }: Move): boolean {
  return ['set', 'begin', 'end', 'moment'].includes(happening.type);
}

function intersects<T>(a: ReadonlySet<T>, b: ReadonlySet<T>): boolean {
  for (const one of a) if (b.has(one)) return true;
  return false;
}
