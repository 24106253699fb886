import type { Condition } from '../../../shared/card.ts';
import { isEmpty } from '../../../shared/interval.ts';

/**
 * What must hold, with the parts that have a finding of their own (an unknown name, an empty bound) taken as they suit: nothing
 * follows from them. `suits` says which way that is; a `not` turns it round.
 */
export function holdingWhereOpen(condition: Condition, suits = true): Condition {
  switch (condition.type) {
    case 'and':
    case 'or':
      return { ...condition, terms: condition.terms.map((term) => holdingWhereOpen(term, suits)) };
    case 'not':
      return { ...condition, term: holdingWhereOpen(condition.term, !suits) };
    case 'open':
      return settled(condition, suits);
    case 'bound':
      return isEmpty(condition.bound.interval) ? settled(condition, suits) : condition;
    case 'limit': {
      const { bound } = condition.limit;
      return bound && isEmpty(bound.interval) ? settled(condition, suits) : condition;
    }
    default:
      return condition;
  }
}

/** All of nothing holds, any of nothing does not. */
function settled({ place }: Condition, holds: boolean): Condition {
  return { type: holds ? 'and' : 'or', terms: [], place };
}
