/** What an editor shows between the words: each written bound in the other system of units. */
import { secondBoundWords, senseOf } from '../../shared/quantity.ts';
import type { Settings } from '../../shared/settings.ts';
import type { Span } from '../../shared/text.ts';
import { declaredBounds, type MeasuredBound, writtenBounds } from '../findings/support/limits.ts';
import type { Snapshot } from '../snapshot.ts';

export interface InlayHint {
  readonly offset: number;
  readonly text: string;
  readonly help: string;
}

export function inlayHints(snapshot: Snapshot, within: Span, settings: Settings): InlayHint[] {
  return secondUnits(snapshot, settings)
    .filter(({ offset }) => within.start <= offset && offset <= within.end)
    .sort((a, b) => a.offset - b.offset);
}

function secondUnits({ file, bound }: Snapshot, { secondUnits: system }: Settings): InlayHint[] {
  if (system === 'none') return [];
  const measured: MeasuredBound[] = [
    ...declaredBounds(bound.equipment, file),
    ...bound.cards.flatMap((card) => [...writtenBounds(card)]),
  ];
  const hints = measured.flatMap(({ bound: written, gauge }) => {
    const second = written.place.file === file ? secondBoundWords(written, system, senseOf(gauge)) : undefined;
    return second
      ? [{ offset: written.place.end, text: second, help: 'Rounded so that it is never the looser limit' }]
      : [];
  });
  // What is written out several times stands in the text once.
  return [...new Map(hints.map((hint) => [hint.offset, hint])).values()];
}
