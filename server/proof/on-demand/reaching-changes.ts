/** Which changes reach another one, or where the card finishes, with nothing in between that ends them. */
import type { Change } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Asker } from '../exploring/ask.ts';
import type { Following, Reach } from '../facts.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Monitor } from '../slicing/monitor.ts';

export function* reachingChanges(asker: Asker, { begins, ends, asks }: Following): InParts<Omit<Reach, 'machines'>[]> {
  const changes = [...begins];
  const numbers = new Map(changes.map((change, index) => [change, index + 1]));
  const making = (some: ReadonlySet<Change>) => (index: FlowIndex) =>
    index.at('set').filter((move) => some.has(index.flow.moves[move]?.change as Change));
  const last: Monitor = {
    name: 'last change',
    stepsAt: making(new Set([...begins, ...ends])),
    step: ({ move: { change } }) => change && (numbers.get(change) ?? (ends.has(change) ? 0 : undefined)),
  };
  const found = new Map<Change | undefined, Set<Change>>();
  yield* asker.ask({
    items: [],
    gauges: [],
    monitors: [last],
    watches: (index) => [...making(asks)(index), ...index.at('finish')],
    look: ({ move: { change: at }, monitor }) => {
      const change = changes[(monitor(last) ?? 0) - 1];
      if (change) getOrInsert(found, at, () => new Set()).add(change);
    },
  });
  return [...found].flatMap(([at, some]) => [...some].map((change) => ({ change, ...(at && { at }) })));
}
