/** Where a card accepts findings. What is told once for several places is told apart where a reason is given for some of them only. */
import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Stage, Statement } from '../../../shared/card.ts';
import { holds, type Place } from '../../../shared/text.ts';

/** A number for each place: the same where the same acceptance of the code, or none, speaks of it. */
export function acceptanceOf(card: Card, code: string): (place: Place) => number {
  const extents = [...extentsIn(card.body, card.place, code)];
  return (place) => extents.findIndex((extent) => holds(extent, place));
}

function* extentsIn(body: readonly (Stage | Statement)[], extent: Place, code: string): Generator<Place> {
  for (const part of body) {
    if (part.type === 'accept' && part.code === code) yield extent;
    if (part.type === 'step' && part.actions.some((action) => action.type === 'accept' && action.code === code))
      yield part.place;
    for (const inner of blocksOf(part)) yield* extentsIn(inner, extentOf(part, extent), code);
  }
}

/** That of a stage, and of the text that is done, is its own. */
function extentOf(part: Stage | Statement, around: Place): Place {
  if (part.type === 'stage') return part.place;
  const [first, last] = part.type === 'do' ? [part.body[0], part.body.at(-1)] : [];
  return first && last ? { ...first.place, end: last.place.end } : around;
}
