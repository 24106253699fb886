import type { Gauge, Hazard, Item } from '../../../shared/card.ts';
import type { Happening, Move } from '../../flow/graph.ts';

/** After such a move, what is only seen or moves by itself may have changed. */
export function passesTime({ happening: { type } }: Move): boolean {
  return type === 'set' || type === 'begin' || type === 'end' || type === 'moment';
}

/** Whether an item may change without anybody's doing. */
export function drifts(item: Item): boolean {
  return item.kind.seen || item.may.length > 0;
}

/** Whether something was touched: what is broken from the start is met here at the latest. */
export function touches(happening: Happening): boolean {
  return (
    happening.type === 'set' ||
    happening.type === 'begin' ||
    (happening.type === 'moment' && happening.cause === 'wait')
  );
}

/** Whether what was read of a gauge ends there; of one that is worked out, where that of either of the two ends. */
export function endsReading(gauge: Gauge, happening: Happening): boolean {
  if (happening.type === 'moment' && happening.cause === 'bring' && happening.gauge && follows(happening.gauge, gauge))
    return true;
  if (!gauge.movedBy && gauge.difference)
    return endsReading(gauge.difference.left, happening) || endsReading(gauge.difference.right, happening);
  switch (happening.type) {
    case 'forget':
    case 'again':
    case 'moment':
      return !gauge.movedBy;
    case 'meanwhile':
      return !gauge.movedBy || gauge.movedBy.includes(happening.movedBy);
    case 'end':
      return gauge.movedBy ? gauge.movedBy.includes(happening.item) : !happening.shows;
    case 'set':
    case 'begin':
      return !gauge.movedBy || gauge.movedBy.includes(happening.item);
    default:
      return false;
  }
}

/** Whether a gauge is the other one or worked out from it. */
export function follows(gauge: Gauge, other: Gauge): boolean {
  if (gauge === other) return true;
  const { difference } = gauge;
  return difference !== undefined && (follows(difference.left, other) || follows(difference.right, other));
}

const ranks = { note: 0, caution: 1, warning: 2, danger: 3 };

/** An admonition of a lower level than its hazard's does not count. */
export function isShown(hazard: Hazard | undefined, happening: Extract<Happening, { type: 'admonish' }>): boolean {
  return hazard !== undefined && happening.hazard === hazard && ranks[happening.level] >= ranks[hazard.level];
}
