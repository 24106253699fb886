/**
 * The part of a card that one question depends on: which items, gauges and rounds must be known, and a graph in which all
 * that changes nothing for the question is skipped. The slice is where the growth of the work goes.
 */

import type { Gauge, Item } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Flow, Move, Point } from '../../flow/graph.ts';
import type { Variables } from '../meaning/evaluate.ts';
import type { GaugeRegions } from '../meaning/regions.ts';
import { allStates, type NumberedVariable, type State, type Variable, withValue } from '../meaning/state.ts';
import { drifts } from '../meaning/transition-facts.ts';
import { type FlowIndex, nowhere } from './flow-index.ts';
import { liveVariables } from './liveness.ts';
import type { MonitorName } from './monitor.ts';
import type { Question } from './question.ts';

const unseen = -2;

export class Slice implements Variables {
  readonly variables: Variable[] = [];
  /** Where a path really stands after all skipping; `nowhere` where nothing more is asked. */
  readonly skip: Int32Array;
  /** The point where paths begin; `nowhere` where the question is never asked. */
  readonly start: Point;
  readonly items = new Set<Item>();
  readonly gauges = new Set<Gauge>();
  private readonly loops = new Set<number>();
  private readonly watched: Uint8Array;
  /** Moves that can change the state or are looked at. */
  private readonly relevant: Uint8Array;
  private readonly useful: Uint8Array;
  private readonly numbers = new Map<Item | Gauge | string, number>();
  private readonly live: ReadonlyMap<Point, bigint>;
  /** The variables that a set of live ones leaves. */
  private readonly unused = new Map<bigint, readonly number[]>();
  /** For points that a way was told through: a card may have thousands of breaks, each with a long way. */
  private readonly onward = new Map<Point, readonly number[]>();

  constructor(
    readonly index: FlowIndex,
    readonly question: Question,
    /** The states, as a mask, in which an item may be where the card begins. */
    readonly startsIn: (item: Item) => number,
  ) {
    const { moves, points } = index.flow;
    this.watched = new Uint8Array(moves.length);
    this.relevant = new Uint8Array(moves.length);
    this.useful = new Uint8Array(points);
    this.skip = new Int32Array(points);
    this.markWatched();
    for (const { stepsAt } of question.monitors) if (stepsAt) this.mark(stepsAt(index));
    for (const item of question.items) this.addItem(item);
    for (const gauge of question.gauges) this.addGauge(gauge);
    this.close();
    this.start = this.useful[this.flow.start] ? (this.skip[this.flow.start] as Point) : nowhere;
    this.layVariables();
    this.live = liveVariables(this);
  }

  get flow(): Flow {
    return this.index.flow;
  }

  ofItem = (item: Item): number | undefined => this.numbers.get(item);
  ofGauge = (gauge: Gauge): number | undefined => this.numbers.get(gauge);
  regions = (gauge: Gauge): GaugeRegions => this.index.regions(gauge);
  ofMonitor = ({ name }: MonitorName): number | undefined => this.numbers.get(`monitor ${name}`);
  own = (type: NumberedVariable['type'], number: number): number | undefined => this.numbers.get(`${type} ${number}`);

  /** The value of one of the question's monitors. */
  valueAt = ({ state }: { readonly state: State }, monitor: MonitorName): number | undefined => {
    const variable = this.ofMonitor(monitor);
    return variable === undefined ? undefined : state[variable];
  };

  /** Whether the masks of the first state allow all that those of the second do. */
  allows(first: State, second: State): boolean {
    return second.every((value, index) => !this.isMask(index) || ((first[index] as number) | value) === first[index]);
  }

  /** Whether the variable counts the rounds of a loop. */
  isCount(index: number): boolean {
    return this.variables[index]?.type === 'rounds';
  }

  /** Whether the variable is a mask of what may be so; otherwise it is a plain number. */
  isMask(index: number): boolean {
    const type = this.variables[index]?.type;
    return type === 'item' || type === 'gauge' || type === 'before-run';
  }

  isWatched(move: number): boolean {
    return this.watched[move] === 1;
  }

  matters(move: number): boolean {
    return this.relevant[move] === 1;
  }

  /** Where a move leads in the slice. */
  target(move: number): Point {
    const to = this.index.toOf[move] as Point;
    return this.useful[to] ? (this.skip[to] as Point) : nowhere;
  }

  /** The moves by which a path goes on from a point to the one where it really stands, where it might leave all that is asked; the last first. */
  onwardFrom(start: Point): readonly number[] {
    return getOrInsert(this.onward, start, () => this.wayOnward(start));
  }

  private wayOnward(start: Point): number[] {
    const place = this.skip[start] as Point;
    const before = new Map<Point, number | undefined>([[start, undefined]]);
    for (const point of before.keys()) {
      if (point === place) break;
      for (const next of this.flow.from[point] as readonly number[]) {
        const { to } = this.flow.moves[next] as Move;
        if (this.target(next) === place && !before.has(to)) before.set(to, next);
      }
    }
    const way: number[] = [];
    for (let last = before.get(place); last !== undefined; ) {
      const { from } = this.flow.moves[last] as Move;
      if (this.flow.from[from]?.some((other) => this.target(other) === nowhere)) way.push(last);
      last = before.get(from);
    }
    return way;
  }

  // -------------------------------------------------------------- what must be known

  private markWatched(): void {
    const { fromOf, into } = this.index;
    const queue: Point[] = [];
    const mark = (point: Point) => {
      if (this.useful[point]) return;
      this.useful[point] = 1;
      queue.push(point);
    };
    for (const index of this.question.watches(this.index)) {
      this.watched[index] = 1;
      this.relevant[index] = 1;
      mark(fromOf[index] as Point);
    }
    for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
      for (let at = into.first[point] as number; at < (into.first[point + 1] as number); at++)
        mark(fromOf[into.moves[at] as number] as Point);
    }
  }

  private mark(moves: Iterable<number>): void {
    for (const move of moves) this.relevant[move] = 1;
  }

  private addItem(item: Item): void {
    if (this.items.has(item)) return;
    this.items.add(item);
    this.mark(this.index.movesOfItem(item));
    if (drifts(item)) this.mark(this.driftsOf(item));
    if (this.index.stays.some((term) => term.item === item))
      this.mark([...this.index.takingTime, ...this.index.betweenLanes]);
    for (const { when } of item.may) if (when) this.addThings(this.index.things(when));
  }

  /** Where an item may change by itself. Of those that the question asks about it may take the possible states apart at the start. */
  private driftsOf(item: Item): readonly number[] {
    const isOpen =
      this.startsIn(item) === allStates(item) && !(this.question.settle && this.question.items.includes(item));
    return isOpen ? this.index.passingTimeSinceTouched(item) : this.index.passingTime;
  }

  private addGauge(gauge: Gauge): void {
    if (this.gauges.has(gauge)) return;
    this.gauges.add(gauge);
    this.mark(this.index.movesOfGauge(gauge));
    this.mark(this.index.endingsOf(gauge));
  }

  private addThings({ items, gauges }: { items: Iterable<Item>; gauges: Iterable<Gauge> }): void {
    for (const item of items) this.addItem(item);
    for (const gauge of gauges) this.addGauge(gauge);
  }

  private addLoop(loop: number): void {
    if (this.loops.has(loop) || !this.tellsRoundsApart(loop)) return;
    this.loops.add(loop);
    this.mark(this.index.movesOfLoop(loop));
  }

  /** Adds what decides where the paths go until nothing new decides. What matters only grows: a place stays one. */
  private close(): void {
    this.skip.fill(nowhere);
    const size = () => this.items.size + this.gauges.size + this.loops.size;
    for (let before = -1; before !== size(); ) {
      before = size();
      this.addPartners();
      this.collapse();
      for (const point of this.index.parting) if (this.skip[point] === point) this.addDeciders(point);
    }
  }

  /** What a condition tells of a tracked item may hang on the other items that it names. */
  private addPartners(): void {
    const asking = [
      ...[...this.items].flatMap((item) => this.index.movesOfItem(item)),
      ...[...this.gauges].flatMap((gauge) => this.index.movesOfGauge(gauge)),
    ];
    for (const move of asking) {
      if (this.useful[(this.flow.moves[move] as Move).from]) this.addThings(this.index.thingsAt(move));
    }
  }

  /** What decides between ways that part: unless every way on is open in any state, whatever was looked at before. */
  private addDeciders(point: Point): void {
    const moves = this.flow.from[point] as readonly number[];
    const onward = moves.filter((move) => this.relevant[move] || this.target(move) !== nowhere);
    const part = moves.some((move) => this.target(move) !== this.target(moves[0] as number));
    if (!part && !moves.some((move) => this.relevant[move] || this.index.mayBar(move))) return;
    const open = onward.every((move) => this.index.free.has(move));
    for (const move of moves) {
      const { happening } = this.flow.moves[move] as Move;
      if (happening.type === 'assume' && !open) this.addThings(this.index.thingsAt(move));
      if (happening.type === 'again' || happening.type === 'leave-loop') this.addLoop(happening.loop);
    }
  }

  /** Where nothing that happens in a round is remembered, every round finds what the first one found. */
  private tellsRoundsApart(loop: number): boolean {
    const remembers = this.items.size + this.gauges.size + this.question.monitors.length > 0;
    return remembers && this.index.bodyOfLoop(loop).some((move) => this.relevant[move]);
  }

  /** For each point the one place where all its ways come together again before anything matters, or the point itself. */
  private collapse(): void {
    const { ordered, isReturnedTo } = this.index;
    const { skip } = this;
    for (const point of ordered) if (this.useful[point] && skip[point] !== point) skip[point] = unseen;
    for (let changed = true; changed; ) {
      changed = false;
      for (let place = ordered.length - 1; place >= 0; place--) {
        const point = ordered[place] as Point;
        if (!this.useful[point] || skip[point] === point) continue;
        const meeting = this.meetingPlace(point);
        if (meeting === skip[point]) continue;
        skip[point] = meeting;
        // Whoever comes to it in flow order is still to be looked at in this round.
        if (isReturnedTo[point]) changed = true;
      }
    }
    for (const point of ordered) if (skip[point] === unseen) skip[point] = nowhere;
  }

  private meetingPlace(point: Point): number {
    const only = this.index.onlyWays.get(point)?.find((move) => !this.relevant[move] && !this.index.mayBar(move));
    if (only !== undefined) return this.target(only);
    const { first, moves } = this.index.from;
    let meeting = unseen;
    let ends = false;
    let open = false;
    for (let at = first[point] as number; at < (first[point + 1] as number); at++) {
      const move = moves[at] as number;
      if (this.relevant[move] || this.index.mayBar(move)) return point;
      const target = this.target(move);
      ends ||= target === nowhere;
      if (target === nowhere || target === unseen || target === point) continue;
      if (meeting !== unseen && meeting !== target) return point;
      meeting = target;
      open ||= !this.index.decides[move] || this.index.free.has(move);
    }
    if (meeting === unseen) return ends ? nowhere : unseen;
    return ends && !open ? point : meeting;
  }

  // -------------------------------------------------------------- variables

  private layVariables(): void {
    const add = (key: Item | Gauge | string, variable: Variable) =>
      this.numbers.set(key, this.variables.push(variable) - 1);
    for (const item of this.items) add(item, { type: 'item', item, all: allStates(item) });
    this.layRuns(add);
    this.layLoops(add);
    for (const { name, start = 0 } of this.question.monitors) add(`monitor ${name}`, { type: 'monitor', start });
    for (const gauge of this.gauges) add(gauge, { type: 'gauge', gauge, all: this.regions(gauge).all });
  }

  /** What was before a run is kept until it is over: runs of which one is over before the other begins share their variables. */
  private layRuns(add: (key: string, variable: Variable) => void): void {
    const firstOnTrack = new Map<string, number>();
    this.flow.runs.forEach((item, run) => {
      if (!this.items.has(item)) return;
      const track = `${item.id} ${this.index.trackOfRun[run]}`;
      const first = getOrInsert(firstOnTrack, track, () => run);
      if (first === run) add(`before-run ${run}`, { type: 'before-run', run, item });
      else this.numbers.set(`before-run ${run}`, this.own('before-run', first) as number);
    });
  }

  /** Rounds are counted until the loop is left: loops of which one is over before the other begins share a variable. */
  private layLoops(add: (key: string, variable: Variable) => void): void {
    const firstOnTrack = new Map<string, number>();
    for (const loop of this.loops) {
      const first = getOrInsert(firstOnTrack, this.index.trackOfLoop[loop] as string, () => loop);
      if (first === loop) add(`rounds ${loop}`, { type: 'rounds', loop });
      else this.numbers.set(`rounds ${loop}`, this.own('rounds', first) as number);
    }
  }

  /** The state with all that nothing later looks at made the same. */
  forgetUnused(point: Point, state: State): State {
    let forgotten = state;
    for (const index of this.unusedAt(point)) forgotten = withValue(forgotten, index, this.unusedValue(index));
    return forgotten;
  }

  private unusedAt(point: Point): readonly number[] {
    const live = this.live.get(point) ?? 0n;
    return getOrInsert(this.unused, live, () =>
      [...this.variables.keys()].filter((index) => !((live >> BigInt(index)) & 1n)),
    );
  }

  private unusedValue(index: number): number {
    const variable = this.variables[index] as Variable;
    return variable.type === 'item' || variable.type === 'gauge' ? variable.all : 0;
  }

  /** The items of which something looks at the state in which they begin. */
  itemsLiveAtStart(): Set<Item> {
    const live = this.live.get(this.start) ?? 0n;
    return new Set([...this.items].filter((item) => (live >> BigInt(this.ofItem(item) as number)) & 1n));
  }
}
