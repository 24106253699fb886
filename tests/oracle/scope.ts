/** What a recipe's numbers choose from, at one place of the card that is being printed. */
import type { CardRecipe, ItemRecipe } from './recipe.ts';

export const STATES = {
  valve: ['closed', 'open'],
  pump: ['off', 'slow', 'fast'],
  lamp: ['dark', 'lit'],
  starter: ['idle', 'cranking'],
} as const;

export type KindName = keyof typeof STATES;

/** An item, or a name that stands for one in a block. */
export interface Thing {
  readonly name: string;
  readonly kind: KindName;
}

export interface Scope {
  readonly things: readonly Thing[];
  /** The labels that a `go to` may name here. */
  readonly labels: readonly string[];
  /** Steps here may carry labels. */
  readonly labelled: boolean;
  /** The starter belongs to the first of two lanes: one item is driven from one lane only. */
  readonly starterHere: boolean;
  /** How many of the procedures may be done here. */
  readonly callable: number;
}

export const DURATIONS = ['10 s', '20 s', '30 s', '1 min', '1 min 30 s', '5 s'] as const;
export const BOUNDS = [
  'at least 20 psi',
  'at most 40 psi',
  'above 60 psi',
  'below 60 psi',
  '20 psi to 40 psi',
  'exactly 40 psi',
  'in middle',
  'in high',
] as const;
export const MACHINES = ['unit 1', 'unit 2 to 3', 'unit 3'] as const;
export const LEVELS = ['danger', 'warning', 'caution', 'note'] as const;

export function pick<T>(list: readonly T[], number: number): T {
  return list[number % list.length] as T;
}

export function thingsOf(recipe: CardRecipe): readonly Thing[] {
  const names = ['alpha', 'bravo', 'charlie'];
  const items = recipe.items.map((item, index) => ({ name: names[index] as string, kind: kindOf(recipe, item) }));
  return hasStarter(recipe) ? [...items, { name: 'crank', kind: 'starter' }] : items;
}

/** Where a card asks how long, nothing may go by itself. */
export function kindOf(recipe: CardRecipe, item: ItemRecipe): KindName {
  return recipe.lasting && item.kind === 'lamp' ? 'valve' : item.kind;
}

export function settable(scope: Scope): readonly Thing[] {
  return scope.things.filter((thing) => thing.kind !== 'lamp' && (thing.kind !== 'starter' || scope.starterHere));
}

export function hasStarter(recipe: CardRecipe): boolean {
  return recipe.starter !== undefined;
}
