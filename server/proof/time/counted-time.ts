/** When time counts for the duties of an item: between its changes, and while it may be in a state that a duty asks about. */
import type { Item } from '../../../shared/card.ts';
import type { Happening, Move, Point } from '../../flow/graph.ts';
import { reached } from '../../flow/order.ts';
import { drifts } from '../meaning/transition-facts.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';

/**
 * Whether the time of a move, given as its index, counts. Within lanes all does: their times hang on one another.
 * @param start the states, as a mask, in which the item may be where the card begins
 */
export function countsTimeFor(item: Item, start: number, index: FlowIndex): (move: number) => boolean {
  if (drifts(item)) return () => true;
  const { flow } = index;
  const to = (move: number) => index.toOf[move] as Point;
  const happening = (move: number) => (flow.moves[move] as Move).happening;
  const changes = index.movesOfItem(item).filter((move) => happening(move).type !== 'assume');
  const isChange = new Set(changes);
  const asked = item.duties.reduce((mask, { state }) => mask | (1 << state), 0);
  const begun = changes.filter((move) => leavesIn(asked, happening(move)));
  // A run that begins in such a state gives it back.
  const stillIn = (move: number) => {
    if (!isChange.has(move)) return [move];
    const over = happening(move);
    return over.type === 'begin' ? changes.filter((end) => isEndOf(over.run, happening(end))) : [];
  };
  const mayRun = reached(flow.points, [...(start & asked ? [flow.start] : []), ...begun.map(to)], (point) =>
    flow.from[point]?.flatMap(stillIn).map(to),
  );
  const [since, until] = [index.after(changes), index.before(changes)];
  return (move) => {
    const point = index.fromOf[move] as Point;
    const isInLane = (flow.moves[move]?.track ?? []).length > 0;
    return isInLane || mayRun[point] === 1 || (since[point] === 1 && until[point] === 1);
  };
}

/** Whether it leaves the item in one of the states, or may. */
function leavesIn(states: number, happening: Happening): boolean {
  switch (happening.type) {
    case 'set':
    case 'begin':
      return (states & (1 << happening.state)) !== 0;
    default:
      return happening.type !== 'end';
  }
}

function isEndOf(run: number, happening: Happening): boolean {
  return happening.type === 'end' && happening.run === run;
}
