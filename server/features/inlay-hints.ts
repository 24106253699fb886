/** What an editor shows between the words: limits in the other system of units, when steps begin, rest to spare. */
import { durationWords, secondBoundWords, senseOf } from '../../shared/quantity.ts';
import type { HintSort, Settings } from '../../shared/settings.ts';
import type { Span } from '../../shared/text.ts';
import { stepsIn } from '../findings/support/card.ts';
import { declaredBounds, type MeasuredBound, writtenBounds } from '../findings/support/limits.ts';
import { seconds, type Ticks } from '../flow/time.ts';
import type { Snapshot } from '../snapshot.ts';
import { sparesIn, timeSinceStart } from './times.ts';

export interface InlayHint {
  readonly offset: number;
  readonly text: string;
  readonly help: string;
  readonly stands: 'before' | 'after';
}

export function inlayHints(snapshot: Snapshot, within: Span, settings: Settings): InlayHint[] {
  const isInside = (offset: number) => within.start <= offset && offset <= within.end;
  const hints = settings.hints.flatMap((sort) => makers[sort](snapshot, isInside, settings));
  // What is written out several times stands in the text once.
  const once = new Map(hints.map((hint) => [`${hint.offset} ${hint.stands}`, hint]));
  return [...once.values()].sort((a, b) => a.offset - b.offset);
}

type Maker = (snapshot: Snapshot, isInside: (offset: number) => boolean, settings: Settings) => InlayHint[];

const makers: Readonly<Record<HintSort, Maker>> = {
  'second unit': secondUnits,
  'time since start': timesSinceStart,
  'rest to spare': restsToSpare,
};

function secondUnits(
  { file, bound }: Snapshot,
  isInside: (offset: number) => boolean,
  settings: Settings,
): InlayHint[] {
  const system = settings.secondUnits;
  if (system === 'none') return [];
  const measured: MeasuredBound[] = [
    ...declaredBounds(bound.equipment, file),
    ...bound.cards.flatMap((card) => [...writtenBounds(card)]),
  ];
  return measured.flatMap(({ bound: { place }, bound: written, gauge }) => {
    if (place.file !== file || !isInside(place.end)) return [];
    const text = secondBoundWords(written, system, senseOf(gauge));
    return text
      ? [{ offset: place.end, text, help: 'Rounded so that it is never the looser limit', stands: 'after' }]
      : [];
  });
}

function timesSinceStart({ file, bound }: Snapshot, isInside: (offset: number) => boolean): InlayHint[] {
  return bound.cards.flatMap((card) =>
    [...stepsIn(card.body)].flatMap(({ step }): InlayHint[] => {
      if (step.place.file !== file || !isInside(step.place.start)) return [];
      const time = timeSinceStart(card, step);
      if (!time || time.most === 0) return [];
      return [
        {
          offset: step.place.start,
          text: timeWords(time),
          help: 'From the start of the card to this step',
          stands: 'before',
        },
      ];
    }),
  );
}

function timeWords({ least, most }: Ticks): string {
  if (most === Number.POSITIVE_INFINITY) return `≥ ${durationWords(seconds(least))}`;
  return least === most
    ? durationWords(seconds(least))
    : `${durationWords(seconds(least))}–${durationWords(seconds(most))}`;
}

function restsToSpare({ file, bound }: Snapshot, isInside: (offset: number) => boolean): InlayHint[] {
  return bound.cards.flatMap((card) =>
    sparesIn(card).flatMap(({ place, item, spare }): InlayHint[] => {
      if (place.file !== file || !isInside(place.start)) return [];
      const text = `${durationWords(seconds(spare))} of rest to spare`;
      return [
        {
          offset: place.start,
          text,
          help: `${item.label}: beyond the rest that its duty asks for, in the worst case`,
          stands: 'before',
        },
      ];
    }),
  );
}
