/**
 * Exploration where a condition asks how long something has been so. The places are explored first as if such a condition
 * could go either way; then each is gone through again with its times, and only the ways that they leave open are told.
 */
import TinyQueue from 'tinyqueue';
import type { InParts } from '../../../shared/parts.ts';
import type { Move } from '../../flow/graph.ts';
import { leastTimed, mostTimesApart, mostTimesOnAverage, mostWidenings } from '../../flow/limits.ts';
import { flowOrder } from '../../flow/order.ts';
import { equalStates, type State } from '../meaning/state.ts';
import { lastingTerms, type StateTerm } from '../meaning/things.ts';
import { passesTime } from '../meaning/transition-facts.ts';
import type { Node, Places, Way } from '../slicing/question.ts';
import type { Slice } from '../slicing/slice.ts';
import { type ExploreOptions, explore, lookAt, placesInPart } from './explore.ts';
import {
  eitherHands,
  eitherStays,
  type Hands,
  openedHands,
  openedStays,
  type Stays,
  sameHands,
  sameStays,
  seen,
} from './hands.ts';
import { everyAnswer, StayClock } from './stays.ts';
import { Transitions } from './transition.ts';

/** What is seen at a place now, and what was when standing questions were last asked. */
interface Times {
  readonly now: Hands;
  readonly asked: Stays;
}

/** A place together with its times. */
interface TimedPlace {
  /** The place as it was explored without times. */
  readonly base: Node;
  readonly node: Node;
  /** Those of a path that leads here; where they would be too many, all that any path may bring. */
  times: Times;
  ways: readonly Way[];
  readonly merges: boolean;
  widenings: number;
  isWaiting: boolean;
}

/** Explores, and keeps time where a condition of the slice asks how long something has been so. */
export function* exploreInTime(slice: Slice, start: State, options: ExploreOptions): InParts<Places> {
  const clock = new StayClock(slice);
  if (!clock.isNeeded) return yield* explore(slice, start, options);
  const untimed = yield* explore(slice, start, { ...options, quiet: true, keepsWays: true });
  return yield* new TimedExplorer(slice, clock, untimed, options).run();
}

class TimedExplorer {
  /** First come, first gone on from: so the paths to them are short. */
  private readonly places: TimedPlace[] = [];
  private readonly placesOf = new Map<Node, TimedPlace[]>();
  private gone = 0;
  /** Those whose times became wider, each after those that lead to it: so it is seldom gone on from again. */
  private readonly widened: TinyQueue<TimedPlace>;
  private readonly mostPlaces: number;

  constructor(
    private readonly slice: Slice,
    private readonly clock: StayClock,
    private readonly untimed: Places,
    { stateBound }: ExploreOptions,
  ) {
    const order = orderOf(untimed);
    const rank = ({ base }: TimedPlace) => order[base.id] as number;
    this.widened = new TinyQueue<TimedPlace>([], (one, other) => rank(one) - rank(other));
    this.mostPlaces = Math.min(stateBound, Math.max(leastTimed, mostTimesOnAverage * untimed.nodes.length));
  }

  *run(): InParts<Places> {
    for (const node of this.untimed.nodes) {
      const now = this.clock.atStart;
      if (!node.parent) this.arrive(node, { now, asked: seen(now, []) }, undefined, undefined);
    }
    for (let done = 1, place = this.next(); place; done++, place = this.next()) {
      if (done % placesInPart === 0) yield;
      place.isWaiting = false;
      place.ways = this.goOn(place);
    }
    // Only now the times of all places are settled.
    for (const [index, place] of this.places.entries()) {
      if (index % placesInPart === placesInPart - 1) yield;
      this.lookFrom(place);
    }
    return { nodes: this.places.map(({ node }) => node), ways: this.places.map(({ ways }) => ways) };
  }

  private next(): TimedPlace | undefined {
    return this.gone < this.places.length ? this.places[this.gone++] : this.widened.pop();
  }

  private goOn(place: TimedPlace): readonly Way[] {
    return this.waysFrom(place.base).flatMap((way) =>
      this.through(place, way).map(({ part, times }) => {
        const to = this.arrive(way.to, times, place.node, way.moveIndex);
        const stayOf: Way['stayOf'] = (...asked) => this.clock.of(times.now, ...asked);
        return { ...way, from: place.node, part, to: to.node, stayOf };
      }),
    );
  }

  private waysFrom(base: Node): readonly Way[] {
    return this.untimed.ways[base.id] as readonly Way[];
  }

  private lookFrom(place: TimedPlace): void {
    const { slice } = this;
    for (const moveIndex of slice.flow.from[place.base.point] ?? []) {
      if (slice.isWatched(moveIndex)) this.look(place, slice.flow.moves[moveIndex] as Move, moveIndex);
    }
  }

  private look({ node, times: { now, asked } }: TimedPlace, move: Move, moveIndex: number): void {
    const { clock, slice } = this;
    const { track = [] } = move;
    const stays = seen(now, track);
    const transitions = new Transitions(slice, (term) => clock.answer(term, stays));
    lookAt(node, move, moveIndex, slice, transitions, {
      atLastAsk: (term) => clock.answer(term, asked),
      after: (before) => {
        const after = seen(clock.along(before, move, now), track);
        return (term) => clock.answer(term, after);
      },
    });
  }

  /** The times with which a way may be taken, each by a part of the place; none where they close it. */
  private through({ base, times }: TimedPlace, way: Way): { part: State; times: Times }[] {
    const { move, to } = way;
    if (move.happening.type !== 'assume') {
      return this.partsThrough(way).map((part) => ({
        part,
        times: this.after(this.clock.along(part, move, times.now), move, times),
      }));
    }
    const { state: part } = base;
    const { track = [] } = move;
    const stays = seen(times.now, track);
    const passed = this.clock.along(part, move, times.now);
    const terms = lastingTerms(move.happening.condition);
    const open = terms.filter((term) => this.clock.answer(term, stays) === 'unknown');
    return everyAnswer(open).flatMap((answers) => {
      const lasting = (term: StateTerm) => answers.get(term) ?? this.clock.answer(term, stays);
      if (!this.isOpen(part, way, new Transitions(this.slice, lasting))) return [];
      const now = [...answers].reduce(
        (hands, [term, answer]) => this.clock.narrowed(hands, term, answer === 'yes', to.state, track),
        passed,
      );
      return [{ part, times: this.after(now, move, times) }];
    });
  }

  private after(now: Hands, move: Move, { asked }: Times): Times {
    // Only a standing question, which settles what it keeps, looks at what was when it was last asked.
    const isAskedAgain = this.slice.question.settle !== undefined && isAsked(move);
    return { now, asked: isAskedAgain ? seen(now, move.track ?? []) : asked };
  }

  /** The parts of a place from which a way leads, where times hang on what an item was before. */
  private partsThrough(way: Way): State[] {
    const { state } = way.from;
    const parts = this.clock.partsBefore(state, way.move);
    if (parts.length === 1) return [state];
    const transitions = new Transitions(this.slice);
    return parts.filter((part) => this.isOpen(part, way, transitions));
  }

  /**
   * Whether a way is open: without times it was explored for every answer. Where an answer stays unknown, what comes of it is no place by
   * itself, and leads to all that it allows.
   */
  private isOpen(before: State, { from, move, moveIndex, to }: Way, transitions: Transitions): boolean {
    const { slice } = this;
    const leadsTo = (state: State) =>
      this.waysFrom(from).some((way) => way.moveIndex === moveIndex && equalStates(way.to.state, state));
    return transitions.after(before, move, moveIndex).some((after) => {
      if (to.blended) return true;
      const state = slice.forgetUnused(to.point, after);
      return equalStates(state, to.state) || (slice.allows(state, to.state) && !leadsTo(state));
    });
  }

  // -------------------------------------------------------------- places

  private arrive(base: Node, times: Times, parent: Node | undefined, move: number | undefined): TimedPlace {
    const apart = this.placesOf.get(base) ?? [];
    const known = apart.find((place) => sameTimes(place.times, times)) ?? apart.find(({ merges }) => merges);
    if (known) {
      if (known.merges) this.widen(known, times);
      return known;
    }
    const merges = apart.length >= mostTimesApart || this.places.length >= this.mostPlaces;
    const node: Node = { ...base, id: this.places.length, parent, move };
    const place: TimedPlace = { base, node, times, ways: [], merges, widenings: 0, isWaiting: true };
    this.placesOf.set(base, [...apart, place]);
    this.places.push(place);
    return place;
  }

  private widen(place: TimedPlace, { now, asked }: Times): void {
    const { times } = place;
    const wider: Times = { now: eitherHands(times.now, now), asked: eitherStays(times.asked, asked) };
    if (sameTimes(times, wider)) return;
    const goesOn = ++place.widenings > mostWidenings;
    place.times = goesOn
      ? { now: openedHands(times.now, wider.now), asked: openedStays(times.asked, wider.asked) }
      : wider;
    if (!place.isWaiting) this.widened.push(place);
    place.isWaiting = true;
  }
}

/** By the ways without times: loops aside, each place comes after those that lead to it. */
function orderOf({ nodes, ways }: Places): Int32Array {
  const beforeStarts = nodes.length;
  const starts = nodes.flatMap(({ parent, id }) => (parent ? [] : [id]));
  return flowOrder(nodes.length + 1, beforeStarts, (node) =>
    node === beforeStarts ? starts : (ways[node] as Way[]).map(({ to }) => to.id),
  );
}

/** Whether a standing question that asks for times looks there. */
function isAsked(move: Move): boolean {
  return passesTime(move) || move.time.most > 0;
}

function sameTimes(some: Times, others: Times): boolean {
  return sameHands(some.now, others.now) && sameStays(some.asked, others.asked);
}
