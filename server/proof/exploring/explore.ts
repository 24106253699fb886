/** Visits every place that a path can come to, the nearest first, so that the way to each is a shortest one. */
import { getOrInsert } from '../../../shared/maps.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Move } from '../../flow/graph.ts';
import { isSplit } from '../meaning/answer.ts';
import type { View } from '../meaning/evaluate.ts';
import { anyRounds, equalStates, hashOf, type State } from '../meaning/state.ts';
import { passesTime } from '../meaning/transition-facts.ts';
import { nowhere } from '../slicing/flow-index.ts';
import type { Node, Places, Way } from '../slicing/question.ts';
import type { Slice } from '../slicing/slice.ts';
import { Transitions } from './transition.ts';

/** Places that are visited in one part: about a millisecond of work. */
export const placesInPart = 64;

export interface ExploreOptions {
  readonly stateBound: number;
  /** The question is not told: it will look when the times are known. */
  readonly quiet?: boolean;
  /** Somebody beside the question wants the ways from node to node; with equal states one node may have many. */
  readonly keepsWays?: boolean;
}

export function explore(slice: Slice, start: State, options: ExploreOptions): InParts<Places> {
  return new Explorer(slice, options).run(start);
}

/** How long something has been so, beside what `Transitions` know of the time before a move. */
export interface TimesAround {
  readonly atLastAsk: View['lasting'];
  readonly after: (before: State) => View['lasting'];
}

/** Lets the question look at a move from a place. */
export function lookAt(
  node: Node,
  move: Move,
  moveIndex: number,
  slice: Slice,
  transitions: Transitions,
  times?: TimesAround,
): void {
  const { view } = transitions;
  slice.question.look({
    node,
    move,
    items: slice.question.items,
    moveIndex,
    after: (part) => goingOn(transitions.after(part, move, moveIndex), move, slice, times?.after(part)),
    happened: (part) => transitions.happen(part, move, moveIndex),
    moved: (part) => transitions.moved(part),
    seenBefore: (answer) =>
      isSplit(answer) ? { ...answer, variable: variableBefore(answer.variable, move, slice) } : answer,
    set: (part, item, value) => transitions.set(part, item, value),
    variables: slice,
    view,
    viewAtLastAsk: (...looked) => ({ ...view(...looked), lasting: times?.atLastAsk }),
    viewAfter: (state, as, before) => ({ ...view(state, as, before), lasting: times?.after(before) }),
    monitor: (monitor) => slice.valueAt(node, monitor),
  });
}

/** Those from which a path goes on: what is awaited comes in time where it then is so, and no run stands where it is not. */
function goingOn(states: readonly State[], { to }: Move, slice: Slice, lasting: View['lasting']): readonly State[] {
  const { flow, index } = slice;
  const next = flow.from[to] as readonly number[];
  if (next.length === 0 || !next.every((move) => index.mayBar(move))) return states;
  const transitions = new Transitions(slice, lasting);
  return states.filter((state) =>
    next.some((move) => transitions.after(state, flow.moves[move] as Move, move).length > 0),
  );
}

/** At its end a run gives back what the item was before. */
function variableBefore(variable: number, { happening }: Move, slice: Slice): number {
  if (happening.type !== 'end' || slice.ofItem(happening.item) !== variable) return variable;
  return slice.own('before-run', happening.run) ?? variable;
}

class Explorer {
  private readonly nodes: Node[] = [];
  private readonly ways: Way[][] = [];
  private readonly keepsWays: boolean;
  /** By a number made of point and state; a string of them costs more than all else of a visit. */
  private readonly known = new Map<number, Node[]>();
  private readonly blends = new Map<string, Node>();
  private readonly queue: Node[] = [];
  private readonly transitions: Transitions;

  constructor(
    private readonly slice: Slice,
    private readonly options: ExploreOptions,
  ) {
    this.transitions = new Transitions(slice);
    this.keepsWays = options.keepsWays === true || slice.question.atEnd !== undefined;
  }

  *run(start: State): InParts<Places> {
    const { start: point } = this.slice;
    if (point !== nowhere) {
      for (const state of this.settleState(start, start, true)) this.arrive(point, state, undefined, undefined);
    }
    for (let next = 0; next < this.queue.length; next++) {
      this.leave(this.queue[next] as Node);
      if (next % placesInPart === placesInPart - 1) yield;
    }
    return { nodes: this.nodes, ways: this.ways };
  }

  private leave(node: Node): void {
    const { slice } = this;
    for (const moveIndex of slice.flow.from[node.point] as readonly number[]) {
      const to = slice.target(moveIndex);
      const watched = slice.isWatched(moveIndex);
      if (to === nowhere && !watched) continue;
      const move = slice.flow.moves[moveIndex] as Move;
      if (watched && !this.options.quiet) lookAt(node, move, moveIndex, slice, this.transitions);
      if (to === nowhere) continue;
      const after = slice.matters(moveIndex)
        ? this.settle(node.state, this.transitions.after(node.state, move, moveIndex), moveIndex)
        : [node.state];
      for (const state of after) {
        const there = this.arrive(to, state, node, moveIndex);
        if (this.keepsWays) this.ways[node.id]?.push({ from: node, part: node.state, move, moveIndex, to: there });
      }
    }
  }

  private settle(before: State, after: readonly State[], moveIndex: number): readonly State[] {
    const { slice } = this;
    const move = slice.flow.moves[moveIndex] as Move;
    // Where time alone passes, only who looks at that settles what it remembers.
    const isSettled = passesTime(move) || (move.time.most > 0 && slice.isWatched(moveIndex));
    return isSettled ? after.flatMap((state) => this.settleState(before, state, false)) : after;
  }

  private settleState(before: State, after: State, isStart: boolean): readonly State[] {
    const { question } = this.slice;
    if (!question.settle) return [after];
    const { view } = this.transitions;
    return question.settle({ before, after, isStart, variables: this.slice, view, ofMonitor: this.slice.ofMonitor });
  }

  private arrive(point: number, reached: State, parent: Node | undefined, move: number | undefined): Node {
    const state = this.slice.forgetUnused(point, reached);
    const key = hashOf(point, state);
    const same = getOrInsert(this.known, key, () => []);
    const known = same.find((node) => node.point === point && equalStates(node.state, state));
    if (known) return known;
    if (this.nodes.length >= this.options.stateBound) return this.blend(point, state, parent, move);
    const blended = parent?.blended ?? this.slice.flow.blended;
    const node = this.addNode({ id: this.nodes.length, point, state, parent, move, blended });
    same.push(node);
    return node;
  }

  private addNode(node: Node): Node {
    this.nodes.push(node);
    this.queue.push(node);
    if (this.keepsWays) this.ways.push([]);
    return node;
  }

  /** Past the bound all states of a point are one that allows what any of them allows, but for the few marks of the question. */
  private blend(point: number, counted: State, parent: Node | undefined, move: number | undefined): Node {
    const { slice } = this;
    const state = counted.map((value, index) => (value !== 0 && slice.isCount(index) ? anyRounds : value));
    const key = [point, ...state.map((value, index) => (slice.isMask(index) ? 0 : value))].join();
    const known = this.blends.get(key);
    if (!known) {
      const node = this.addNode({ id: this.nodes.length, point, state, parent, move, blended: true });
      this.blends.set(key, node);
      return node;
    }
    const wider = known.state.map((value, index) => (slice.isMask(index) ? value | (state[index] as number) : value));
    if (wider.some((value, index) => value !== known.state[index])) {
      known.state = wider;
      this.queue.push(known);
    }
    return known;
  }
}
