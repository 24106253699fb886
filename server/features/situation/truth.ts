/** Conditions where each item is known only by the states that it may be in: sure, out of the question, or either. */
import type { Condition, Item } from '../../../shared/card.ts';

export type Truth = 'yes' | 'no' | 'either';

/** The states that an item may be in. */
export type Possible = (item: Item) => readonly number[];

/** Items are taken apart from each other, so that `either` may be said of what no path does, and never `yes` or `no`. */
export function truthOf(condition: Condition, possible: Possible): Truth {
  switch (condition.type) {
    case 'and':
      return both(condition.terms.map((term) => truthOf(term, possible)));
    case 'or':
      return opposite(both(condition.terms.map((term) => opposite(truthOf(term, possible)))));
    case 'not':
      return opposite(truthOf(condition.term, possible));
    case 'quantified':
      return truthOf(condition.written, possible);
    case 'state': {
      const states = possible(condition.item);
      if (!states.includes(condition.state)) return 'no';
      return states.length > 1 || condition.lasting ? 'either' : 'yes';
    }
    default:
      return 'either';
  }
}

function both(parts: readonly Truth[]): Truth {
  if (parts.includes('no')) return 'no';
  return parts.includes('either') ? 'either' : 'yes';
}

export function opposite(truth: Truth): Truth {
  if (truth === 'either') return truth;
  return truth === 'yes' ? 'no' : 'yes';
}
