/** What a condition is made of. */
import type { Condition, Item } from './card.ts';

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
