/**
 * What may be so on one path, for one question. A state is a row of numbers, one for each thing that the question needs:
 * a mask of the states that an item may be in, a mask of the regions that a gauge may show, or a plain number.
 */
import type { Gauge, Item } from '../../../shared/card.ts';

export type State = readonly number[];

export type Variable =
  | { readonly type: 'item'; readonly item: Item; readonly all: number }
  | { readonly type: 'gauge'; readonly gauge: Gauge; readonly all: number }
  /** The states that an item may have had before a `run`. */
  | { readonly type: 'before-run'; readonly run: number; readonly item: Item }
  /** Rounds done of a loop; 0 outside it, `anyRounds` where they are no longer counted. */
  | { readonly type: 'rounds'; readonly loop: number }
  /** What a question remembers on the path beside the state of the card. */
  | { readonly type: 'monitor'; readonly start: number };

/** Those of which there is one for each run or loop. */
export type NumberedVariable = Extract<Variable, { readonly run: number } | { readonly loop: number }>;

/** Past the bound rounds are no longer counted: the loop may be gone round again, and left. */
export const anyRounds = -1;

/** A whole number that is the same for equal states at a point; seldom for others (the multiplier is that of Fowler, Noll and Vo). */
export function hashOf(point: number, state: State): number {
  let hash = point;
  for (const value of state) hash = Math.imul(hash, 16_777_619) ^ value;
  return hash;
}

export function equalStates(one: State, other: State): boolean {
  return one.length === other.length && one.every((value, index) => value === other[index]);
}

export function withValue(state: State, index: number, value: number): State {
  if (state[index] === value) return state;
  const changed = state.slice();
  changed[index] = value;
  return changed;
}

/** The bits of a mask, as indices. */
export function bitsOf(mask: number): number[] {
  const bits: number[] = [];
  for (let bit = 0; bit < 31; bit++) if (mask & (1 << bit)) bits.push(bit);
  return bits;
}

export function isSingle(mask: number): boolean {
  return mask !== 0 && (mask & (mask - 1)) === 0;
}

export function allStates(item: Item): number {
  return 2 ** Math.min(item.kind.states.length, 31) - 1;
}
