/** What an editor shows between the words: limits in the other system of units, when steps begin, rest to spare. */
import type { Card, Step } from '../../shared/card.ts';
import type { InParts } from '../../shared/parts.ts';
import { durationWords, secondBoundWords, senseOf } from '../../shared/quantity.ts';
import type { HintSort, Settings } from '../../shared/settings.ts';
import { contains, type Span } from '../../shared/text.ts';
import { stepsIn } from '../findings/support/card.ts';
import { declaredBounds, type MeasuredBound, writtenBounds } from '../findings/support/limits.ts';
import { either, seconds, type Ticks } from '../flow/time.ts';
import type { Snapshot } from '../snapshot.ts';
import { sparesIn, timeSinceStart } from './times.ts';

export interface InlayHint {
  /** The hint stands after what ends here. */
  readonly offset: number;
  readonly text: string;
  readonly help: string;
}

export function* inlayHints(snapshot: Snapshot, within: Span, settings: Settings): InParts<InlayHint[]> {
  const hints: InlayHint[] = [];
  for (const sort of settings.hints) hints.push(...(yield* makers[sort](snapshot, within, settings)));
  // What is written out several times stands in the text once.
  const once = new Map(hints.map((hint) => [`${hint.offset} ${hint.text}`, hint]));
  return [...once.values()].sort((a, b) => a.offset - b.offset);
}

type Maker = (snapshot: Snapshot, within: Span, settings: Settings) => InParts<InlayHint[]>;

const makers: Readonly<Record<HintSort, Maker>> = {
  'second unit': secondUnits,
  'time since start': timesSinceStart,
  'rest to spare': restsToSpare,
};

function* secondUnits({ file, bound }: Snapshot, within: Span, settings: Settings): InParts<InlayHint[]> {
  const system = settings.secondUnits;
  if (system === 'none') return [];
  const measured: MeasuredBound[] = [...declaredBounds(bound.equipment, file), ...bound.cards.flatMap(writtenBounds)];
  return measured.flatMap(({ bound: written, gauge }) => {
    const { place } = written;
    if (place.file !== file || !contains(within, place.end)) return [];
    const text = secondBoundWords(written, system, senseOf(gauge));
    return text ? [{ offset: place.end, text, help: 'Rounded so that it is never the looser limit' }] : [];
  });
}

/** Only where the time is another than at the step before, so that a stage without times shows nothing. */
function* timesSinceStart({ file, bound, text }: Snapshot, within: Span): InParts<InlayHint[]> {
  const hints: InlayHint[] = [];
  for (const card of bound.cards) {
    let before = '';
    for (const [start, steps] of stepsByPlace(card, file)) {
      const [{ place }] = steps;
      if (!contains(within, start)) continue;
      const times = steps.flatMap((step) => timeSinceStart(card, step) ?? []);
      yield;
      if (times.length === 0) continue;
      const time = times.reduce(either);
      const words = `begins at ${timeWords(time)}`;
      if (words === before || saysNothing(time)) continue;
      before = words;
      hints.push({ offset: endOfLine(text, place), text: words, help: 'From the start of the card to this step' });
    }
  }
  return hints;
}

/** The steps of a card that stand in a file, by where they begin: a procedure's are done each time that it is. */
function stepsByPlace(card: Card, file: string): Map<number, [Step, ...Step[]]> {
  const byPlace = new Map<number, [Step, ...Step[]]>();
  for (const { step } of stepsIn(card.body)) {
    if (step.place.file !== file) continue;
    const known = byPlace.get(step.place.start);
    if (known) known.push(step);
    else byPlace.set(step.place.start, [step]);
  }
  return byPlace;
}

/** At once, or at any time. */
function saysNothing({ least, most }: Ticks): boolean {
  return least === 0 && (most === 0 || most === Number.POSITIVE_INFINITY);
}

function timeWords({ least, most }: Ticks): string {
  if (most === Number.POSITIVE_INFINITY) return `${durationWords(seconds(least))} or later`;
  return least === most
    ? durationWords(seconds(least))
    : `${durationWords(seconds(least))} to ${durationWords(seconds(most))}`;
}

function* restsToSpare({ file, bound, text }: Snapshot, within: Span): InParts<InlayHint[]> {
  const hints: InlayHint[] = [];
  for (const card of bound.cards) {
    for (const { place, item, asked, spare } of yield* sparesIn(card)) {
      if (place.file !== file || !contains(within, place.start)) continue;
      const amount = spare === 0 ? 'no' : durationWords(seconds(spare));
      const help = `${item.label}: beyond the rest of ${durationWords(seconds(asked))} that its duty asks for, in the worst case`;
      hints.push({ offset: endOfLine(text, place), text: `${amount} rest to spare`, help });
    }
  }
  return hints;
}

/** The end of a place, or of its first line. */
function endOfLine(text: string, { start, end }: Span): number {
  const line = /^[^\r\n]*/.exec(text.slice(start, end))?.[0] ?? '';
  return start + line.trimEnd().length;
}
