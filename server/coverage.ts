/** How much of a card the proof follows: what a clean check says of it, and what it does not. */
import type { Action, Card, Condition, Item, Step } from '../shared/card.ts';
import { actionsIn, conditionsAskedBy, stepsIn, termsIn } from './findings/support/card.ts';

/**
 * A step counts that does something to the machine or has a text; one that only signs or writes something down does not. It is
 * followed where one of its actions sets, looks at, reads or waits for something: a text alone is not, whatever it says, nor
 * is a torque, which changes no state.
 */
export interface Coverage {
  readonly steps: number;
  readonly followedSteps: number;
  /** The items of the card's equipment, and those that an action of the card names. */
  readonly items: number;
  readonly followedItems: number;
}

export function coverageOf(card: Card): Coverage {
  // A procedure's step is one step, however often it is done.
  const steps = new Map<string, boolean>();
  for (const { step } of stepsIn(card.body)) {
    const followed = step.actions.some(isFollowed);
    if (followed || step.texts.length > 0 || step.actions.some(isForPeople)) {
      const key = `${step.place.file}:${step.place.start}`;
      steps.set(key, followed || steps.get(key) === true);
    }
  }
  return {
    steps: steps.size,
    followedSteps: [...steps.values()].filter(Boolean).length,
    items: card.equipment.items.length,
    followedItems: followedItems(card).size,
  };
}

/** The items that an action of the card sets, runs or looks at. */
export function followedItems(card: Card): ReadonlySet<Item> {
  return new Set([...actionsIn(card.body)].flatMap((action) => (isFollowed(action) ? itemsOf(action) : [])));
}

/** `the proof follows 22 of 25 steps` */
export function coverageWords(cards: readonly Coverage[]): string {
  const sum = (of: (one: Coverage) => number): number => cards.reduce((total, one) => total + of(one), 0);
  const steps = sum((one) => one.steps);
  return `the proof follows ${sum((one) => one.followedSteps)} of ${steps} step${steps === 1 ? '' : 's'}`;
}

type InStep = Step['actions'][number];

function isFollowed(action: InStep): action is Action {
  switch (action.type) {
    case 'set':
    case 'ensure':
    case 'read':
    case 'bring':
    case 'run':
    case 'wait':
      return true;
    case 'check':
      return action.condition !== undefined;
    case 'tighten':
    case 'record':
    case 'sign':
    case 'accept':
      return false;
  }
}

function isForPeople(action: InStep): boolean {
  return action.type === 'tighten' || (action.type === 'check' && action.question !== undefined);
}

function itemsOf(action: Action): Item[] {
  const own =
    action.type === 'set' || action.type === 'ensure'
      ? action.changes.map(({ item }) => item)
      : action.type === 'run'
        ? [action.item]
        : [];
  return [...own, ...conditionsAskedBy(action).flatMap((condition) => [...termsIn(condition)].flatMap(itemIn))];
}

function itemIn(condition: Condition): Item[] {
  return condition.type === 'state' ? [condition.item] : [];
}
