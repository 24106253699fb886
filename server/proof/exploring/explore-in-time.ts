/**
 * Exploration where a condition asks how long something has been so. The places are explored first as if such a condition
 * could go either way; then each is gone through again with its times, and only the ways that they leave open are told.
 */
import type { InParts } from '../../../shared/parts.ts';
import type { Move } from '../../flow/graph.ts';
import { mostTimesApart, mostWidenings } from '../../flow/limits.ts';
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
  handsWithoutEnd,
  type Stays,
  sameHands,
  sameStays,
  seen,
  staysWithoutEnd,
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
  readonly merges: boolean;
  widened: number;
}

/** Explores, and keeps time where a condition of the slice asks how long something has been so. */
export function* exploreInTime(slice: Slice, start: State, options: ExploreOptions): InParts<Places> {
  const clock = new StayClock(slice);
  if (!clock.isNeeded) return yield* explore(slice, start, options);
  const untimed = yield* explore(slice, start, { ...options, quiet: true, keepsWays: true });
  return yield* new TimedExplorer(slice, clock, untimed, options).run();
}

class TimedExplorer {
  private readonly places: TimedPlace[] = [];
  private readonly placesOf = new Map<Node, TimedPlace[]>();
  private readonly queue: TimedPlace[] = [];

  constructor(
    private readonly slice: Slice,
    private readonly clock: StayClock,
    private readonly untimed: Places,
    private readonly options: ExploreOptions,
  ) {}

  *run(): InParts<Places> {
    for (const node of this.untimed.nodes) {
      const now = this.clock.atStart;
      if (!node.parent) this.arrive(node, { now, asked: seen(now, []) }, undefined, undefined);
    }
    for (let next = 0; next < this.queue.length; next++) {
      if (next % placesInPart === placesInPart - 1) yield;
      const from = this.queue[next] as TimedPlace;
      for (const way of this.waysFrom(from.base)) {
        for (const { times } of this.through(from, way)) this.arrive(way.to, times, from.node, way.moveIndex);
      }
    }
    // Only now the times of all places are settled.
    const ways: Way[][] = [];
    for (const [index, place] of this.places.entries()) {
      if (index % placesInPart === placesInPart - 1) yield;
      ways.push(this.timedWays(place));
      this.lookFrom(place);
    }
    return { nodes: this.places.map(({ node }) => node), ways };
  }

  private waysFrom(base: Node): readonly Way[] {
    return this.untimed.ways[base.id] as readonly Way[];
  }

  private timedWays(place: TimedPlace): Way[] {
    return this.waysFrom(place.base).flatMap((way) =>
      this.through(place, way).flatMap(({ part, times }): Way[] => {
        const to = this.known(way.to, times);
        const stayOf: Way['stayOf'] = (...asked) => this.clock.of(times.now, ...asked);
        return to ? [{ ...way, from: place.node, part, to: to.node, stayOf }] : [];
      }),
    );
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

  private arrive(base: Node, times: Times, parent: Node | undefined, move: number | undefined): void {
    const known = this.known(base, times);
    if (known) {
      if (known.merges && widen(known, times)) this.queue.push(known);
      return;
    }
    const apart = this.placesOf.get(base) ?? [];
    const merges = apart.length >= mostTimesApart || this.places.length >= this.options.stateBound;
    const node: Node = { ...base, id: this.places.length, parent, move };
    const place: TimedPlace = { base, node, times, merges, widened: 0 };
    this.placesOf.set(base, [...apart, place]);
    this.places.push(place);
    this.queue.push(place);
  }

  private known(base: Node, times: Times): TimedPlace | undefined {
    const places = this.placesOf.get(base) ?? [];
    return places.find((place) => sameTimes(place.times, times)) ?? places.find((place) => place.merges);
  }
}

/** Whether a standing question that asks for times looks there. */
function isAsked(move: Move): boolean {
  return passesTime(move) || move.time.most > 0;
}

function sameTimes(some: Times, others: Times): boolean {
  return sameHands(some.now, others.now) && sameStays(some.asked, others.asked);
}

function widen(place: TimedPlace, { now, asked }: Times): boolean {
  const { times } = place;
  const wider: Times = { now: eitherHands(times.now, now), asked: eitherStays(times.asked, asked) };
  if (sameTimes(times, wider)) return false;
  place.widened++;
  const isEndless = place.widened > mostWidenings;
  place.times = isEndless ? { now: handsWithoutEnd(wider.now), asked: staysWithoutEnd(wider.asked) } : wider;
  return true;
}
