/** What is known from all interleavings of the lanes, for flows that follow one of them. */
import type { Move } from '../flow/graph.ts';
import { placeKey } from './collector.ts';
import type { FlowIndex } from './flow-index.ts';
import { thingsIn } from './things.ts';

/** Whether a conditional move is taken on no path: neither it nor a copy of it in another lane or round. */
export function closedMoves({ flow, asking }: FlowIndex, taken: ReadonlySet<number>): (move: Move) => boolean {
  const open = new Set<string>();
  const closed = new Set<string>();
  for (const index of asking) (taken.has(index) ? open : closed).add(keyOf(flow.moves[index] as Move));
  for (const key of open) closed.delete(key);
  return (move) => closed.size > 0 && move.happening.type === 'assume' && closed.has(keyOf(move));
}

function keyOf({ place, happening }: Move): string {
  if (happening.type !== 'assume') return '';
  const { condition, holds } = happening;
  const things = thingsIn(condition);
  const ids = [...things.items, ...things.gauges].map(({ name }) => name);
  return [placeKey(place), placeKey(condition.place), holds, ...ids].join(' ');
}
