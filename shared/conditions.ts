/** What a condition is made of. */
import type { Action, Condition, Item, Stage, Statement } from './card.ts';

/** A condition with all that it is made of; what stands under a `not` is left out where `positive` is asked for. */
export function* termsIn(condition: Condition, positive = false): Generator<Condition> {
  yield condition;
  if (condition.type === 'or' || condition.type === 'and') {
    for (const term of condition.terms) yield* termsIn(term, positive);
  } else if (condition.type === 'not' && !positive) {
    yield* termsIn(condition.term);
  } else if (condition.type === 'quantified') {
    yield* termsIn(condition.written, positive);
  }
}

/** The items that a condition names. */
export const itemsIn = (condition: Condition): readonly Item[] =>
  [...termsIn(condition)].flatMap((term) => (term.type === 'state' ? [term.item] : []));

/** The conditions that a statement or action asks by itself, without those of the statements in it. */
export function conditionsAskedBy(asking: Stage | Statement | Action): readonly Condition[] {
  switch (asking.type) {
    case 'if':
    case 'check':
    case 'keep':
      return present([asking.condition]);
    case 'repeat':
    case 'wait':
      return present([asking.until?.condition]);
    case 'read':
    case 'bring':
      return present([asking.asked]);
    case 'run':
      return present([asking.until?.condition, ...asking.watches.map((watch) => watch.asked)]);
    case 'stage':
    case 'step':
    case 'set':
    case 'ensure':
    case 'tighten':
    case 'record':
    case 'do':
    case 'mend':
    case 'together':
    case 'for-each':
    case 'choose':
    case 'admonition':
    case 'sign':
    case 'accept':
    case 'figure':
    case 'go':
    case 'stop':
    case 'finish':
      return [];
  }
}

function present(conditions: readonly (Condition | undefined)[]): Condition[] {
  return conditions.filter((condition) => condition !== undefined);
}
