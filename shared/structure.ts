/** What hangs neither on the words of a card nor on the numbers of its bounds, and so stays while somebody types them. */

import type { Card } from './card.ts';
import { getOrInsert } from './maps.ts';

/** The same object in each version of a card that differs from the one before in nothing but that: its place has moved along. */
export function structureOf({ place }: Card): object {
  return place;
}

export function oncePerStructure<Value>(make: (card: Card) => Value): (card: Card) => Value {
  const known = new WeakMap<object, { readonly value: Value }>();
  return (card) => getOrInsert(known, structureOf(card), () => ({ value: make(card) })).value;
}
