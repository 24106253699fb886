import type { Item } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import type { Move } from '../flow/graph.ts';
import type { Asker } from './ask.ts';
import { bitsOf } from './state.ts';

/** The states of the items before what happens at a place, over all paths; each item's are worked out when first asked. */
export function statesAtPlaces(
  asker: Asker,
  items: readonly Item[],
): (place: Place) => { item: Item; states: readonly number[] }[] {
  const known = new Map<Item, Map<number, number>>();
  const masksOf = (item: Item) => {
    const masks = known.get(item) ?? masksByPoint(asker, item);
    known.set(item, masks);
    return masks;
  };
  return (place) => {
    const points = asker.index.flow.moves.filter((move) => isAt(move, place)).map((move) => move.from);
    return items.flatMap((item) => {
      const mask = points.reduce((all, point) => all | (masksOf(item).get(point) ?? 0), 0);
      return mask === 0 ? [] : [{ item, states: bitsOf(mask) }];
    });
  };
}

function isAt({ place, steps }: Move, at: Place): boolean {
  return [place, ...(steps ?? []).flatMap((step) => [step.place, step.head])].some(
    (one) => one.file === at.file && one.start === at.start && one.end === at.end,
  );
}

function masksByPoint(asker: Asker, item: Item): Map<number, number> {
  const masks = new Map<number, number>();
  const { slice, exploration } = asker.ask({
    items: [item],
    gauges: [],
    own: [],
    watches: (index) => [...index.flow.moves.keys()],
    look: () => {},
  });
  const variable = slice.ofItem(item) as number;
  for (const { point, state } of exploration.nodes)
    masks.set(point, (masks.get(point) ?? 0) | (state[variable] as number));
  return masks;
}
