/**
 * How long an item has been in a state, for conditions that ask it. The places are explored first as if such a condition
 * could go either way; then the times of all ways are settled, ways that they close are left out, and the question looks.
 */
import type { Item } from '../../shared/card.ts';
import type { InParts } from '../../shared/parts.ts';
import { type Move, togetherOf } from '../flow/graph.ts';
import { Agenda, flowOrder } from '../flow/order.ts';
import { ticks } from '../flow/time.ts';
import type { Answer } from './answer.ts';
import type { PlaceGraph, Way } from './duties.ts';
import { type Exploration, type ExploreOptions, explore, lookAt, placesInPart } from './explore.ts';
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

/** The stays of a place: now, and when standing questions were last asked. */
interface Times {
  readonly now: Stays;
  readonly asked: Stays;
}

const unknownStay: Stay = { least: 0, most: Number.POSITIVE_INFINITY };
const mostWidenings = 1000;

/** Explores, and keeps time where a condition of the slice asks how long something has been so. */
export function* exploreInTime(slice: Slice, start: State, options: ExploreOptions): InParts<Exploration> {
  const terms = askedStays(slice);
  if (terms.length === 0) return yield* explore(slice, start, options);
  const ways: Way[][] = [];
  const { nodes } = yield* explore(slice, start, {
    ...options,
    quiet: true,
    onWay: (from, move, moveIndex, to) => {
      ways[from.id] ??= [];
      ways[from.id]?.push({ move, moveIndex, to });
    },
  });
  const check = new StayCheck(slice, terms, { nodes, ways: nodes.map(({ id }) => ways[id] ?? []) });
  yield* check.run(options.onWay);
  return { nodes: nodes.filter(({ id }) => check.isReached(id)) };
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
  private readonly times: (Times | undefined)[];
  private readonly widened: Int32Array;
  private readonly lanes: readonly Map<string, number>[];
  /** Beyond it a time answers no question differently. */
  private readonly longest: number;

  constructor(
    private readonly slice: Slice,
    private readonly terms: readonly StateTerm[],
    private readonly graph: PlaceGraph,
  ) {
    this.times = new Array(graph.nodes.length);
    this.widened = new Int32Array(graph.nodes.length);
    this.lanes = terms.map((term) => lanesTouching(term.item, slice.flow.moves));
    this.longest = 1 + Math.max(...slice.index.stays.map(({ lasting }) => (lasting ? ticks(lasting.duration) : 0)));
  }

  isReached(node: number): boolean {
    return this.times[node] !== undefined;
  }

  /** Settles the times, then tells of every way that they leave open, and looks. */
  *run(onWay: ExploreOptions['onWay']): InParts<void> {
    if (this.graph.nodes.length === 0) return;
    const { slice, graph } = this;
    yield* this.settle();
    for (const node of graph.nodes) {
      if (node.id % placesInPart === 0) yield;
      const times = this.times[node.id];
      if (!times) continue;
      for (const way of graph.ways[node.id] ?? []) {
        if (!this.isOpen(node, way, times.now)) continue;
        slice.question.onWay?.(node, way.moveIndex, way.to, slice.valueAt);
        onWay?.(node, way.move, way.moveIndex, way.to);
      }
      for (const moveIndex of slice.flow.from[node.point] ?? []) {
        const move = slice.flow.moves[moveIndex] as Move;
        if (slice.isWatched(moveIndex)) this.look(node, move, moveIndex, times);
      }
    }
  }

  private look(node: Node, move: Move, moveIndex: number, { now, asked }: Times): void {
    const transitions = new Transitions(this.slice, (term) => this.answer(term, now));
    lookAt(node, move, moveIndex, this.slice, transitions, {
      atLastAsk: (term) => this.answer(term, asked),
      after: (before, after) => (term) => this.answer(term, this.along(before, move, after, now)),
    });
  }

  private *settle(): InParts<void> {
    const { ways, nodes } = this.graph;
    const order = flowOrder(nodes.length, 0, (node) => (ways[node] ?? []).map((way) => way.to.id));
    const agenda = new Agenda((node) => order[node] as number);
    for (const node of nodes) {
      if (node.parent) continue;
      const now = this.terms.map(() => unknownStay);
      this.times[node.id] = { now, asked: now };
      agenda.add(node.id);
    }
    let settled = 0;
    for (let id = agenda.take(); id !== undefined; id = agenda.take()) {
      if (++settled % placesInPart === 0) yield;
      const node = nodes[id] as Node;
      for (const way of ways[id] ?? []) {
        const times = this.times[id] as Times;
        if (!this.isOpen(node, way, times.now)) continue;
        const now = this.along(node.state, way.move, way.to.state, times.now);
        const asked = passesTime(way.move) ? now : times.asked;
        if (this.merge(way.to.id, { now, asked })) agenda.add(way.to.id);
      }
    }
  }

  /** Whether the times let this way be taken. Without them it was explored in parts that are at least as fine. */
  private isOpen(node: Node, { move, moveIndex, to }: Way, stays: Stays): boolean {
    if (move.happening.type !== 'assume' || lastingTerms(move.happening.condition).length === 0) return true;
    const transitions = new Transitions(this.slice, (term) => this.answer(term, stays));
    return transitions
      .after(node.state, move, moveIndex)
      .some((state) => to.blended || this.slice.allows(this.slice.forgetUnused(to.point, state), to.state));
  }

  private answer(term: StateTerm, stays: Stays): Answer {
    const stay = stays[this.terms.findIndex((known) => known.item === term.item && known.state === term.state)];
    const { lasting } = term;
    if (!stay || !lasting) return 'unknown';
    const asked = ticks(lasting.duration);
    if (lasting.form === 'at least') return stay.least >= asked ? 'yes' : stay.most < asked ? 'no' : 'unknown';
    return stay.most <= asked ? 'yes' : stay.least > asked ? 'no' : 'unknown';
  }

  private along(before: State, move: Move, after: State, stays: Stays): Stays {
    return stays.map((stay, index) => {
      const term = this.terms[index] as StateTerm;
      const passed = {
        least: stay.least + (this.countsFor(index, move) ? move.time.least : 0),
        most: stay.most + move.time.most,
      };
      return this.clamped(
        learnt(term, move, mayEnter(term, move) ? this.entered(term, before, after, passed) : passed),
      );
    });
  }

  private clamped({ least, most }: Stay): Stay {
    return { least: Math.min(least, this.longest), most: most > this.longest ? Number.POSITIVE_INFINITY : most };
  }

  /** Beside other lanes only the time of the lane that moves the item is sure to have passed since. */
  private countsFor(index: number, move: Move): boolean {
    return !move.lane || move.lane.index === (this.lanes[index]?.get(togetherOf(move.lane)) ?? 0);
  }

  private entered(term: StateTerm, before: State, after: State, passed: Stay): Stay {
    const variable = this.slice.ofItem(term.item) as number;
    const bit = 1 << term.state;
    const was = before[variable] as number;
    if (was === bit && after[variable] === bit) return passed;
    return { least: 0, most: was & bit ? passed.most : 0 };
  }

  private merge(id: number, arriving: Times): boolean {
    const known = this.times[id];
    if (!known) {
      this.times[id] = arriving;
      return true;
    }
    const merged: Times = { now: either(known.now, arriving.now), asked: either(known.asked, arriving.asked) };
    if (same(known.now, merged.now) && same(known.asked, merged.asked)) return false;
    this.widened[id] = (this.widened[id] as number) + 1;
    const endless = (this.widened[id] as number) > mostWidenings;
    this.times[id] = endless ? { now: withoutEnd(merged.now), asked: withoutEnd(merged.asked) } : merged;
    return true;
  }
}

function either(known: Stays, arriving: Stays): Stays {
  return known.map((stay, index) => {
    const other = arriving[index] as Stay;
    return { least: Math.min(stay.least, other.least), most: Math.max(stay.most, other.most) };
  });
}

function same(known: Stays, merged: Stays): boolean {
  return known.every(({ least, most }, index) => merged[index]?.least === least && merged[index]?.most === most);
}

/** A time that goes on growing round after round has no end. */
function withoutEnd(stays: Stays): Stays {
  return stays.map(({ least }) => ({ least, most: Number.POSITIVE_INFINITY }));
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
