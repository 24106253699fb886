/** Which changes reach another one, a step, or where the card finishes, with nothing in between that ends them. */
import type { Change, Step } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Call } from '../../flow/calls.ts';
import type { Move } from '../../flow/graph.ts';
import type { Asker } from '../exploring/ask.ts';
import type { Following, Reach } from '../facts.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Monitor } from '../slicing/monitor.ts';

type Reached = Pick<Reach, 'at' | 'atIn'>;

export function* reachingChanges(asker: Asker, { begins, ends, asks }: Following): InParts<Omit<Reach, 'machines'>[]> {
  const changes = [...begins];
  const numbers = new Map(changes.map((change, index) => [change, index + 1]));
  const askedBy = ({ change, steps = [] }: Move) => [change, ...steps].filter((at) => at && asks.has(at));
  const where = ({ flow }: FlowIndex, fits: (move: Move) => boolean) =>
    flow.moves.flatMap((move, index) => (fits(move) ? [index] : []));
  const last: Monitor = {
    name: 'last change',
    stepsAt: (index) => where(index, ({ change }) => change !== undefined && (begins.has(change) || ends.has(change))),
    step: ({ move: { change } }) => change && (numbers.get(change) ?? (ends.has(change) ? 0 : undefined)),
  };
  const found = new Map<Change, Map<Change | Step | undefined, Reached>>();
  yield* asker.ask({
    items: [],
    gauges: [],
    monitors: [last],
    watches: (index) => [...where(index, (move) => askedBy(move).length > 0), ...index.at('finish')],
    look: ({ node, move, monitor, after }) => {
      const change = changes[(monitor(last) ?? 0) - 1];
      // A check may carry the step behind it.
      if (!change || after(node.state).length === 0) return;
      const reached = getOrInsert(found, change, () => new Map());
      const asked = move.happening.type === 'finish' ? [undefined] : askedBy(move);
      for (const at of asked) reached.set(at, { ...(at && { at }), atIn: move.call });
    },
  });
  const calls = new Map<Change | undefined, Call | undefined>(
    asker.index.flow.moves.map(({ change, call }) => [change, call]),
  );
  return [...found].flatMap(([change, all]) =>
    [...all.values()].map((reached) => ({ change, changeIn: calls.get(change), ...reached })),
  );
}
