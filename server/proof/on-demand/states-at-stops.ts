/** What items may be in where the card stops, after all that its stage for stops does. */
import type { Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Asker } from '../exploring/ask.ts';

/** As masks; an item is left out where the card never stops. */
export function* statesAtStops(asker: Asker, items: readonly Item[]): InParts<Map<Item, number>> {
  const masks = new Map<Item, number>();
  for (const item of items) {
    yield* asker.ask({
      items: [item],
      gauges: [],
      monitors: [],
      watches: (index) => index.at('stopped'),
      look: ({ node, variables }) => {
        const mask = node.state[variables.ofItem(item) as number] as number;
        masks.set(item, (masks.get(item) ?? 0) | mask);
      },
    });
    yield;
  }
  return masks;
}
