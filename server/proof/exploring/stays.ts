/** How long items have been in states, for conditions that ask it: between two times, along the moves of a path. */
import type { Item } from '../../../shared/card.ts';
import { type Move, togetherOf } from '../../flow/graph.ts';
import { mostAnswered } from '../../flow/limits.ts';
import { either, type Ticks, ticks, unknownTime } from '../../flow/time.ts';
import type { Answer } from '../meaning/answer.ts';
import { divided } from '../meaning/evaluate.ts';
import type { State } from '../meaning/state.ts';
import type { StateTerm } from '../meaning/things.ts';
import { drifts, passesTime } from '../meaning/transition-facts.ts';
import type { Slice } from '../slicing/slice.ts';

/** For each asked item and state the time since the item can last have come into it, and since it must have. */
export type Stays = readonly Ticks[];

const endless = Number.POSITIVE_INFINITY;

/** What is asked of stays in a slice, and what becomes of them. */
export class StayClock {
  private readonly terms: readonly StateTerm[];
  private readonly lanes: readonly ReadonlyMap<string, number>[];
  /** Beyond it a time answers no question differently. */
  private readonly longest: number;

  constructor(private readonly slice: Slice) {
    const asked = slice.index.stays.filter(({ item }) => slice.items.has(item));
    this.terms = asked.filter((term, index) => asked.findIndex((known) => isSameStay(known, term)) === index);
    this.lanes = this.terms.map((term) => lanesTouching(term.item, slice.flow.moves));
    this.longest = 1 + Math.max(0, ...asked.map(({ lasting }) => (lasting ? ticks(lasting.duration) : 0)));
  }

  get isNeeded(): boolean {
    return this.terms.length > 0;
  }

  /** Before the card begins nobody has looked. */
  get atStart(): Stays {
    return this.terms.map(() => unknownTime);
  }

  answer(term: StateTerm, stays: Stays): Answer {
    const stay = stays[this.terms.findIndex((known) => isSameStay(known, term))];
    const { lasting } = term;
    if (!stay || !lasting) return 'unknown';
    const asked = ticks(lasting.duration);
    if (lasting.form === 'at least') return stay.least >= asked ? 'yes' : stay.most < asked ? 'no' : 'unknown';
    return stay.most <= asked ? 'yes' : stay.least > asked ? 'no' : 'unknown';
  }

  /** That of an item in a state, as a mask; undefined where nothing asks for it. */
  of(item: Item, state: number, stays: Stays): Ticks | undefined {
    return stays[this.terms.findIndex((term) => term.item === item && 1 << term.state === state)];
  }

  /** The stays after a move from a state. */
  along(before: State, move: Move, stays: Stays): Stays {
    return stays.map((stay, index) => {
      const term = this.terms[index] as StateTerm;
      const passed = {
        least: stay.least + (this.countsFor(index, move) ? move.time.least : 0),
        most: stay.most + mostTime(move),
      };
      return this.clamped(mayEnter(term, move) ? this.entered(term, before, passed) : passed);
    });
  }

  /** The stays after the question of a term was answered, in a state in which its item is. */
  narrowed(stays: Stays, term: StateTerm, answer: boolean, state: State): Stays {
    const { lasting, item } = term;
    if (!lasting || state[this.slice.ofItem(item) as number] !== 1 << term.state) return stays;
    const asked = ticks(lasting.duration);
    const atLeast = (lasting.form === 'at least') === answer;
    return stays.map((stay, index) => {
      if (!isSameStay(this.terms[index] as StateTerm, term)) return stay;
      return atLeast
        ? { ...stay, least: Math.max(stay.least, answer ? asked : asked + 1) }
        : { ...stay, most: Math.min(stay.most, answer ? asked : asked - 1) };
    });
  }

  private clamped({ least, most }: Ticks): Ticks {
    return { least: Math.min(least, this.longest), most: most > this.longest ? endless : most };
  }

  /** Beside other lanes only the time of the lane that moves the item is sure to have passed since. */
  private countsFor(index: number, move: Move): boolean {
    return !move.lane || move.lane.index === (this.lanes[index]?.get(togetherOf(move.lane)) ?? 0);
  }

  private entered(term: StateTerm, before: State, passed: Ticks): Ticks {
    const variable = this.slice.ofItem(term.item) as number;
    const bit = 1 << term.state;
    const was = before[variable] as number;
    if (was === bit) return passed;
    return { least: 0, most: was & bit ? passed.most : 0 };
  }

  /** The parts of a state from which a move comes into an asked state newly, and from which it stays there. */
  partsBefore(state: State, { happening }: Move): State[] {
    return 'item' in happening ? partsByStay(state, happening.item, this.slice) : [state];
  }
}

/** An item whose stays are asked is either in an asked state or not: what it comes to afterwards hangs on that. */
export function partsByStay(state: State, item: Item, slice: Slice): State[] {
  const variable = slice.ofItem(item);
  if (variable === undefined) return [state];
  const asked = new Set(slice.index.stays.filter((term) => term.item === item).map((term) => 1 << term.state));
  return [...asked].reduce<State[]>((parts, bit) => parts.flatMap((part) => split(part, variable, bit)), [state]);
}

function split(state: State, variable: number, bit: number): State[] {
  const possible = state[variable] as number;
  return (possible & bit) === 0 || possible === bit ? [state] : divided(state, { variable, mask: bit });
}

/** Every way of answering questions of time. */
export function everyAnswer(terms: readonly StateTerm[]): ReadonlyMap<StateTerm, 'yes' | 'no'>[] {
  if (terms.length > mostAnswered) return [new Map()];
  return terms.reduce<ReadonlyMap<StateTerm, 'yes' | 'no'>[]>(
    (answers, term) =>
      answers.flatMap((some) => (['yes', 'no'] as const).map((answer) => new Map([...some, [term, answer]]))),
    [new Map()],
  );
}

export function eitherStays(some: Stays, others: Stays): Stays {
  return some.map((stay, index) => either(stay, others[index] as Ticks));
}

export function sameStays(some: Stays, others: Stays): boolean {
  return some.every(({ least, most }, index) => others[index]?.least === least && others[index]?.most === most);
}

/** A time that goes on growing round after round has no end. */
export function withoutEnd(stays: Stays): Stays {
  return stays.map(({ least }) => ({ least, most: endless }));
}

function isSameStay(one: StateTerm, other: StateTerm): boolean {
  return one.item === other.item && one.state === other.state;
}

function mostTime({ time, happening }: Move): number {
  return happening.type === 'join' ? time.most + happening.others.most : time.most;
}

/** A move after which the item may newly be in the state. */
function mayEnter({ item }: StateTerm, move: Move): boolean {
  const { happening } = move;
  if ('item' in happening && happening.item === item) return true;
  if (happening.type === 'fork' || happening.type === 'join')
    return happening.changes.some((change) => change.item === item);
  return passesTime(move) && drifts(item);
}

function lanesTouching(item: Item, moves: readonly Move[]): Map<string, number> {
  const touching = new Map<string, number>();
  for (const { lane, happening } of moves) {
    if (lane && 'item' in happening && happening.item === item) touching.set(togetherOf(lane), lane.index);
  }
  return touching;
}
