/** What of a card is silent to a question of time: it matters only for the time that it takes. */
import type { Gauge, Item } from '../../shared/card.ts';
import type { Move } from '../flow/graph.ts';
import type { FlowIndex } from './flow-index.ts';
import { drifts } from './transition-facts.ts';

/** Whether a move changes nothing that the question, or any condition of the card, may look at. */
export function silentMoves(
  index: FlowIndex,
  question: { readonly items: Iterable<Item>; readonly gauges: Iterable<Gauge> },
): (move: Move) => boolean {
  const items = new Set(question.items);
  const gauges = new Set(question.gauges);
  for (const move of index.asking) addAll(index.thingsAt(move), items, gauges);
  for (const item of items) {
    for (const { when } of item.may) if (when) addAll(index.things(when), items, gauges);
  }
  const moves = gauges.size > 0 || [...items].some(drifts);
  const isTimed = index.stays.some(({ item }) => items.has(item));
  return ({ happening, time }) => {
    if (isTimed && time.most > 0) return false;
    switch (happening.type) {
      case 'pass':
      case 'admonish':
        return true;
      case 'set':
      case 'begin':
      case 'end':
        return !moves && !items.has(happening.item);
      case 'moment':
      case 'forget':
        return !moves;
      case 'call':
        return !happening.assumes.some(({ item }) => items.has(item));
      default:
        return false;
    }
  };
}

function addAll(
  things: { readonly items: Iterable<Item>; readonly gauges: Iterable<Gauge> },
  items: Set<Item>,
  gauges: Set<Gauge>,
): void {
  for (const item of things.items) items.add(item);
  for (const gauge of things.gauges) gauges.add(gauge);
}
