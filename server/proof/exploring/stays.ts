/** How long items have been in states, for conditions that ask it: between two times, along the moves of a path. */
import type { Item } from '../../../shared/card.ts';
import type { Move, Track } from '../../flow/graph.ts';
import { mostAnswered } from '../../flow/limits.ts';
import { either, type Ticks, ticks, unknownTime } from '../../flow/time.ts';
import type { Answer } from '../meaning/answer.ts';
import { divided } from '../meaning/evaluate.ts';
import type { State } from '../meaning/state.ts';
import type { StateTerm } from '../meaning/things.ts';
import { drifts, passesTime } from '../meaning/transition-facts.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Slice } from '../slicing/slice.ts';
import {
  abreast,
  aroundAll,
  elapsed,
  forked,
  type Hands,
  joined,
  learnt,
  left,
  onlyHands,
  ownStays,
  type Stay,
  type Stays,
  sinceNow,
} from './hands.ts';

/** What is asked of stays in a slice, and what becomes of them. */
export class StayClock {
  private readonly terms: readonly StateTerm[];
  /** Beyond it a time answers no question differently. */
  private readonly longest: number;
  /** Lanes that are further apart by their clocks do not meet any more, but in a loop. */
  private readonly horizon: number;

  constructor(private readonly slice: Slice) {
    const asked = slice.index.stays.filter(({ item }) => slice.items.has(item));
    this.terms = asked.filter((term, index) => asked.findIndex((known) => isSameStay(known, term)) === index);
    this.longest = 1 + Math.max(0, ...asked.map(({ lasting }) => (lasting ? ticks(lasting.duration) : 0)));
    this.horizon = this.longest + timeOfLanes(slice.index);
  }

  get isNeeded(): boolean {
    return this.terms.length > 0;
  }

  /** Before the card begins nobody has looked. */
  get atStart(): Hands {
    return onlyHands(this.terms.map(() => unknownTime));
  }

  answer(term: StateTerm, stays: Stays): Answer {
    const stay = stays[this.terms.findIndex((known) => isSameStay(known, term))];
    const { lasting } = term;
    if (!stay || !lasting) return 'unknown';
    const asked = ticks(lasting.duration);
    if (lasting.form === 'at least') return stay.least >= asked ? 'yes' : stay.most < asked ? 'no' : 'unknown';
    return stay.most <= asked ? 'yes' : stay.least > asked ? 'no' : 'unknown';
  }

  /** That of an item in a state, as a mask, by the clock of a lane; undefined where nothing asks for it. */
  of(hands: Hands, track: Track, item: Item, state: number): Stay | undefined {
    const index = this.terms.findIndex((term) => term.item === item && 1 << term.state === state);
    const stay = ownStays(hands, track)[index];
    return stay && sinceNow(stay);
  }

  /** What each pair of hands sees after a move from a state. */
  along(before: State, move: Move, hands: Hands): Hands {
    const { happening, track = [], leaves = 0 } = move;
    const together = happening.type === 'join' ? joined(hands, track, happening.others) : hands;
    const passed = elapsed(together, track, timeSure(move));
    const entered = this.enteredBy(move, before, passed);
    const gone = leaves > 0 ? left(entered, track, leaves) : entered;
    const begun = happening.type === 'fork' ? forked(gone, track, happening.lanes, happening.led) : gone;
    if (begun === hands) return hands;
    return aroundAll(abreast(begun, this.longest, this.horizon));
  }

  private enteredBy(move: Move, before: State, hands: Hands): Hands {
    if (!this.terms.some((term) => mayEnter(term, move))) return hands;
    return learnt(hands, move.track ?? [], (stays, ahead) =>
      stays.map((stay, index) => {
        const term = this.terms[index] as StateTerm;
        return mayEnter(term, move) ? this.entered(term, before, stay, ahead) : stay;
      }),
    );
  }

  /** What is seen after the question of a term was answered in a lane, in a state in which its item is. */
  narrowed(hands: Hands, term: StateTerm, answer: boolean, state: State, track: Track): Hands {
    const { lasting, item } = term;
    if (!lasting || state[this.slice.ofItem(item) as number] !== 1 << term.state) return hands;
    const asked = ticks(lasting.duration);
    const atLeast = (lasting.form === 'at least') === answer;
    const least = answer ? asked : asked + 1;
    const most = answer ? asked : asked - 1;
    return learnt(hands, track, (stays, ahead) =>
      stays.map((stay, index) => {
        if (!isSameStay(this.terms[index] as StateTerm, term)) return stay;
        return atLeast
          ? { ...stay, least: Math.max(stay.least, least + ahead.least) }
          : { ...stay, most: Math.min(stay.most, most + ahead.most) };
      }),
    );
  }

  /** It comes into the state now, by the clock of the lane in which it does; others are ahead of that, or behind. */
  private entered(term: StateTerm, before: State, passed: Stay, ahead: Ticks): Stay {
    const variable = this.slice.ofItem(term.item) as number;
    const bit = 1 << term.state;
    const was = before[variable] as number;
    if (was === bit) return passed;
    return was & bit ? either(passed, ahead) : ahead;
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

function isSameStay(one: StateTerm, other: StateTerm): boolean {
  return one.item === other.item && one.state === other.state;
}

/** Where the moves of lanes come in any order and number, no more of them than one lane's may have taken time after each other: none is sure. */
function timeSure({ time, lane }: Move): Ticks {
  return lane?.inAnyOrder ? { least: 0, most: time.most } : time;
}

/** All that is done in lanes, once. */
function timeOfLanes({ site, flow: { moves } }: FlowIndex): number {
  const times = moves.map(({ track, time: { least, most } }, index) =>
    track && site[index] === index ? (most === Number.POSITIVE_INFINITY ? least : most) : 0,
  );
  return times.reduce((one, other) => one + other, 0);
}

/** A move after which the item may newly be in the state. */
function mayEnter({ item }: StateTerm, move: Move): boolean {
  const { happening } = move;
  if ('item' in happening && happening.item === item) return true;
  if (happening.type === 'fork' || happening.type === 'join')
    return happening.changes.some((change) => change.item === item);
  return passesTime(move) && drifts(item);
}
