/** The card and the step that an offset lies in. */
import type { Card, Step } from '../../shared/card.ts';
import { contains, type Place } from '../../shared/text.ts';
import { stepsIn } from '../findings/support/card.ts';
import type { Snapshot } from '../snapshot.ts';

export function cardAt({ bound }: Snapshot, offset: number): Card | undefined {
  return bound.cards.find(({ extent }) => contains(extent, offset));
}

/** The step of a card whose text holds the place; the innermost where a procedure's is written out. */
export function stepAt(card: Card, file: string, offset: number): Step | undefined {
  const around = [...stepsIn(card.body)].map(({ step }) => step).filter(({ place }) => holds(place, file, offset));
  return around.reduce<Step | undefined>(
    (best, step) => (best && length(best.place) <= length(step.place) ? best : step),
    undefined,
  );
}

/** The next step that is written after an offset: an admonition and the head of a stage speak of it. */
export function stepAfter(card: Card, file: string, offset: number): Step | undefined {
  return [...stepsIn(card.body)]
    .map(({ step }) => step)
    .filter(({ place }) => place.file === file && place.start >= offset)
    .sort((a, b) => a.place.start - b.place.start)[0];
}

function holds(place: Place, file: string, offset: number): boolean {
  return place.file === file && contains(place, offset);
}

function length({ start, end }: Place): number {
  return end - start;
}
