/**
 * How long an item has been in a state, for conditions that ask it. The places are explored first as if such a condition
 * could go either way; then the times of all ways are settled, ways that they close are left out, and the question looks.
 */
import type { Item } from '../../shared/card.ts';
import { type Move, togetherOf } from '../flow/graph.ts';
import { Agenda, flowOrder } from '../flow/order.ts';
import { ticks } from '../flow/time.ts';
import type { Answer } from './answer.ts';
import type { PlaceGraph, Way } from './duties.ts';
import { type Exploration, type ExploreOptions, explore, lookAt } from './explore.ts';
import type { Node } from './question.ts';
import type { Slice } from './slice.ts';
import type { State } from './state.ts';
import { lastingTerms, type StateTerm } from './things.ts';
import { Transitions } from './transition.ts';
import { passesTime } from './transition-facts.ts';
import { alternatives } from './triggers.ts';

/** Ticks since the item can last have come into the state, and since it must have. */
interface Stay {
  readonly least: number;
  readonly most: number;
}

/** One stay for each asked item and state, in the order of the terms. */
type Stays = readonly Stay[];

const unknownStay: Stay = { least: 0, most: Number.POSITIVE_INFINITY };
const mostWidenings = 64;

/** Explores, and keeps time where a condition of the slice asks how long something has been so. */
export function exploreInTime(slice: Slice, start: State, options: ExploreOptions): Exploration {
  const terms = askedStays(slice);
  if (terms.length === 0) return explore(slice, start, options);
  const ways: Way[][] = [];
  const exploration = explore(slice, start, {
    ...options,
    quiet: true,
    onWay: (from, move, moveIndex, to) => {
      ways[from.id] ??= [];
      ways[from.id]?.push({ move, moveIndex, to });
      options.onWay?.(from, move, moveIndex, to);
    },
  });
  const { nodes } = exploration;
  new StayCheck(slice, terms, { nodes, ways: nodes.map(({ id }) => ways[id] ?? []) }).run();
  return exploration;
}

function askedStays(slice: Slice): StateTerm[] {
  const terms: StateTerm[] = [];
  for (const term of slice.index.stays) {
    if (!slice.items.has(term.item)) continue;
    if (!terms.some((known) => known.item === term.item && known.state === term.state)) terms.push(term);
  }
  return terms;
}

class StayCheck {
  private readonly stays: (Stays | undefined)[];
  private readonly widened: Int32Array;
  private readonly lanes: readonly Map<string, number>[];

  constructor(
    private readonly slice: Slice,
    private readonly terms: readonly StateTerm[],
    private readonly graph: PlaceGraph,
  ) {
    this.stays = new Array(graph.nodes.length);
    this.widened = new Int32Array(graph.nodes.length);
    this.lanes = terms.map((term) => lanesTouching(term.item, slice.flow.moves));
  }

  run(): void {
    if (this.graph.nodes.length === 0) return;
    this.settle();
    for (const node of this.graph.nodes) {
      const stays = this.stays[node.id];
      if (!stays) continue;
      const transitions = new Transitions(this.slice, (term) => this.answer(term, stays));
      for (const moveIndex of this.slice.flow.from[node.point] ?? []) {
        const move = this.slice.flow.moves[moveIndex] as Move;
        if (this.slice.isWatched(moveIndex)) lookAt(node, move, moveIndex, this.slice, transitions);
      }
    }
  }

  private settle(): void {
    const { ways, nodes } = this.graph;
    const order = flowOrder(nodes.length, 0, (node) => (ways[node] ?? []).map((way) => way.to.id));
    const agenda = new Agenda((node) => order[node] as number);
    for (const node of nodes) {
      if (node.parent) continue;
      this.stays[node.id] = this.terms.map(() => unknownStay);
      agenda.add(node.id);
    }
    for (let id = agenda.take(); id !== undefined; id = agenda.take()) {
      for (const way of ways[id] ?? []) {
        const stays = this.stays[id] as Stays;
        if (!this.isOpen(nodes[id] as Node, way, stays)) continue;
        if (this.merge(way.to.id, this.along(nodes[id] as Node, way, stays))) agenda.add(way.to.id);
      }
    }
  }

  /** Whether the times let this way be taken. */
  private isOpen(node: Node, { move, moveIndex, to }: Way, stays: Stays): boolean {
    if (move.happening.type !== 'assume' || lastingTerms(move.happening.condition).length === 0) return true;
    const transitions = new Transitions(this.slice, (term) => this.answer(term, stays));
    const wanted = to.state.join();
    return transitions
      .after(node.state, move, moveIndex)
      .some((state) => to.blended || this.slice.forgetUnused(to.point, state).join() === wanted);
  }

  private answer(term: StateTerm, stays: Stays): Answer {
    const stay = stays[this.terms.findIndex((known) => known.item === term.item && known.state === term.state)];
    const { lasting } = term;
    if (!stay || !lasting) return 'unknown';
    const asked = ticks(lasting.duration);
    if (lasting.form === 'at least') return stay.least >= asked ? 'yes' : stay.most < asked ? 'no' : 'unknown';
    return stay.most <= asked ? 'yes' : stay.least > asked ? 'no' : 'unknown';
  }

  private along(node: Node, { move, to }: Way, stays: Stays): Stays {
    return stays.map((stay, index) => {
      const term = this.terms[index] as StateTerm;
      const passed = {
        least: stay.least + (this.countsFor(index, move) ? move.time.least : 0),
        most: stay.most + move.time.most,
      };
      return learnt(term, move, mayEnter(term, move) ? this.entered(term, node, to, passed) : passed);
    });
  }

  /** Beside other lanes only the time of the lane that moves the item is sure to have passed since. */
  private countsFor(index: number, move: Move): boolean {
    return !move.lane || move.lane.index === (this.lanes[index]?.get(togetherOf(move.lane)) ?? 0);
  }

  private entered(term: StateTerm, node: Node, to: Node, passed: Stay): Stay {
    const variable = this.slice.ofItem(term.item) as number;
    const bit = 1 << term.state;
    const before = node.state[variable] as number;
    if (before === bit && to.state[variable] === bit) return passed;
    return { least: 0, most: before & bit ? passed.most : 0 };
  }

  private merge(id: number, arriving: Stays): boolean {
    const known = this.stays[id];
    if (!known) {
      this.stays[id] = arriving;
      return true;
    }
    const merged = known.map((stay, index) => ({
      least: Math.min(stay.least, (arriving[index] as Stay).least),
      most: Math.max(stay.most, (arriving[index] as Stay).most),
    }));
    if (merged.every((stay, index) => stay.least === known[index]?.least && stay.most === known[index]?.most))
      return false;
    this.widened[id] = (this.widened[id] as number) + 1;
    const endless = (this.widened[id] as number) > mostWidenings;
    this.stays[id] = endless ? merged.map(({ least }) => ({ least, most: Number.POSITIVE_INFINITY })) : merged;
    return true;
  }
}

/** A move after which the item may newly be in the state. */
function mayEnter({ item }: StateTerm, move: Move): boolean {
  const { happening } = move;
  if ('item' in happening && happening.item === item) return true;
  return passesTime(move) && (item.kind.seen || item.may.length > 0);
}

/** What a passed or failed condition tells of a stay. */
function learnt(term: StateTerm, { happening }: Move, stay: Stay): Stay {
  if (happening.type !== 'assume') return stay;
  const rows = alternatives(happening.condition, happening.holds);
  if (rows?.length !== 1) return stay;
  let { least, most } = stay;
  for (const { term: asked, holds } of rows[0] ?? []) {
    if (asked.type !== 'state' || !asked.lasting || asked.item !== term.item || asked.state !== term.state) continue;
    const duration = ticks(asked.lasting.duration);
    if ((asked.lasting.form === 'at least') === holds) least = Math.max(least, duration);
    else if (holds) most = Math.min(most, duration);
  }
  return { least, most: Math.max(most, least) };
}

function lanesTouching(item: Item, moves: readonly Move[]): Map<string, number> {
  const touching = new Map<string, number>();
  for (const { lane, happening } of moves) {
    if (lane && 'item' in happening && happening.item === item) touching.set(togetherOf(lane), lane.index);
  }
  return touching;
}
