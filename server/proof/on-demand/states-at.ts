import type { Item } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { type InParts, Once } from '../../../shared/parts.ts';
import { isSamePlace, type Place } from '../../../shared/text.ts';
import type { Move, Point } from '../../flow/graph.ts';
import type { Asker } from '../exploring/ask.ts';
import type { ItemStates, StatesAt } from '../facts.ts';
import { bitsOf } from '../meaning/state.ts';

/** What an item may be at each point is worked out when first asked, by an asker of its own. */
export function statesAtPlaces(moves: readonly Move[], makeAsker: () => Asker): StatesAt {
  const known = new Map<Item, Once<Map<Point, number>>>();
  const masksOf = (item: Item) => getOrInsert(known, item, () => new Once(() => masksByPoint(makeAsker(), item)));
  return function* (place, items) {
    const points = moves.filter((move) => isAt(move, place)).map((move) => move.from);
    const found: ItemStates[] = [];
    for (const item of items) {
      const masks = yield* masksOf(item).inParts();
      const mask = points.reduce((all, point) => all | (masks.get(point) ?? 0), 0);
      if (mask !== 0) found.push({ item, states: bitsOf(mask) });
      yield;
    }
    return found;
  };
}

function isAt({ place, steps }: Move, at: Place): boolean {
  return [place, ...(steps ?? []).flatMap((step) => [step.place, step.head])].some((one) => isSamePlace(one, at));
}

function* masksByPoint(asker: Asker, item: Item): InParts<Map<Point, number>> {
  const masks = new Map<Point, number>();
  const { slice, places } = yield* asker.ask({
    items: [item],
    gauges: [],
    monitors: [],
    watches: (index) => [...index.flow.moves.keys()],
    look: () => {},
  });
  const variable = slice.ofItem(item) as number;
  for (const { point, state } of places.nodes) masks.set(point, (masks.get(point) ?? 0) | (state[variable] as number));
  return masks;
}
