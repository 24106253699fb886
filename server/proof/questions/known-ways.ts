/** What the questions of a card have found out about its conditional moves, for flows that are drawn anew for times. */
import type { Move } from '../../flow/graph.ts';
import { placeKey } from '../break.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Ways } from './branches.ts';

export interface KnownWays {
  /** No path takes the conditional move, nor a copy of it in another interleaving or round. */
  readonly isClosed: (move: Move) => boolean;
  /** Every path that comes to it, or to a copy of it, may take it. */
  readonly isFree: (move: Move) => boolean;
}

export function knownWays(index: FlowIndex, { taken, refused }: Ways): KnownWays {
  const { flow, free } = index;
  const asking = index.at('assume');
  const keyOf = ({ place, happening }: Move): string => {
    if (happening.type !== 'assume') return '';
    const { condition, holds } = happening;
    const { items, gauges } = index.things(condition);
    const names = [...items, ...gauges].map(({ name }) => name);
    return [placeKey(place), placeKey(condition.place), holds, ...names].join(' ');
  };
  const closed = new Set(asking.map((move) => keyOf(flow.moves[move] as Move)));
  const hanging = new Set<string>();
  for (const move of asking) {
    const key = keyOf(flow.moves[move] as Move);
    if (taken.has(move)) closed.delete(key);
    if ((taken.has(move) || refused.has(move)) && !free.has(move)) hanging.add(key);
  }
  return {
    isClosed: (move) => move.happening.type === 'assume' && closed.has(keyOf(move)),
    isFree: (move) => move.happening.type === 'assume' && !hanging.has(keyOf(move)),
  };
}
