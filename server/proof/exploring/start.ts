import type { Card, Item } from '../../../shared/card.ts';
import { allStates, type State } from '../meaning/state.ts';
import type { Slice } from '../slicing/slice.ts';

/** The states that an item may be in when the card begins: its normal one, or any where nobody can be sure; `assume` goes before both. */
export function startOf(card: Card): (item: Item) => number {
  const assumed = new Map(card.assumes.map(({ item, state }) => [item, 1 << state]));
  return (item) => assumed.get(item) ?? normalStart(item);
}

function normalStart(item: Item): number {
  if (item.normally === undefined || item.verify) return allStates(item);
  return 1 << item.normally;
}

export function startState({ variables, startsIn }: Slice): State {
  return variables.map((variable) => {
    switch (variable.type) {
      case 'item':
        return startsIn(variable.item);
      case 'gauge':
        return variable.all;
      case 'monitor':
        return variable.start;
      default:
        return 0;
    }
  });
}
