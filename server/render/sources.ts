/** What of a card comes from which sentence of the approved data, and what names none. */
import type { Card, Gauge, Hazard } from '../../shared/card.ts';
import { conditionsAskedBy, termsIn } from '../../shared/conditions.ts';
import { boundWords } from '../../shared/quantity.ts';
import type { Place } from '../../shared/text.ts';
import { gaugesRead } from './job/gauges.ts';
import { inPrintedOrder, numberSteps, type Part, partsInside } from './numbering.ts';

/** Something that may name its source. */
export interface Traced {
  readonly sort: 'step' | 'admonition' | 'limit' | 'rule';
  /** What a reader knows it by; a step goes by its number. */
  readonly words: string;
  readonly step?: number;
  readonly sources: readonly string[];
  readonly place: Place;
}

/** In the order of the card, then the limits of the gauges that it asks for, then its rules. Those that are shipped name their own. */
export function tracedIn(card: Card): readonly Traced[] {
  const { numberOf } = numberSteps(card, undefined);
  const hazards = new Set<Hazard>();
  const traced = (part: Part): Traced[] => {
    if (part.type === 'step') {
      const words = [...part.texts.map(({ text }) => text)].join(' ');
      return [{ sort: 'step', words, step: numberOf(part), sources: part.sources ?? [], place: part.place }];
    }
    if (part.type !== 'admonition') return partsInside(part).flatMap(traced);
    const { hazard } = part;
    if (hazard && hazards.has(hazard)) return [];
    if (hazard) hazards.add(hazard);
    const words = hazard?.label ?? part.texts.map(({ text }) => text).join(' ');
    const sources = [part.source, hazard?.source].flatMap((source) => source ?? []);
    return [{ sort: 'admonition', words, sources, place: hazard?.place ?? part.place }];
  };
  return [
    ...inPrintedOrder(card).flatMap(traced),
    ...gaugesAskedFor(card).flatMap(limitsOf),
    ...card.equipment.rules.map(
      ({ title, sources, place }): Traced => ({ sort: 'rule', words: title, sources, place }),
    ),
  ].filter(({ place }) => !place.file.startsWith('std:'));
}

/** Those that it reads, and those that it only watches, waits for or decides by. */
function gaugesAskedFor(card: Card): readonly Gauge[] {
  const askedIn = (part: Part): Gauge[] => [
    ...(part.type === 'step' ? part.actions : [part])
      .flatMap((asking) => conditionsAskedBy(asking))
      .flatMap((condition) => [...termsIn(condition)])
      .flatMap((term) => (term.type === 'bound' || term.type === 'limit' ? [term.gauge] : [])),
    ...partsInside(part).flatMap(askedIn),
  ];
  return [...new Set([...gaugesRead(card), ...card.body.flatMap(askedIn)])];
}

function limitsOf({ limits, label }: Gauge): Traced[] {
  return limits.map(({ name, bound, source, place }) => ({
    sort: 'limit',
    words: `${label}, ${name}${bound ? `: ${boundWords(bound)}` : ''}`,
    sources: source === undefined ? [] : [source],
    place,
  }));
}

export interface FromSource {
  readonly source: string;
  readonly what: readonly Traced[];
}

/** By their sources, each with all that comes from it, in the order in which they are first named; and what has none. */
export function bySource(all: readonly Traced[]): {
  readonly sources: readonly FromSource[];
  readonly without: readonly Traced[];
} {
  const sources = new Map<string, Traced[]>();
  for (const one of all) for (const source of one.sources) sources.set(source, [...(sources.get(source) ?? []), one]);
  return {
    sources: [...sources].map(([source, what]) => ({ source, what })),
    without: all.filter((one) => one.sources.length === 0),
  };
}

/** Stretches of numbers that follow one another: 1 to 4, 7 to 7. */
export function runs(rising: readonly number[]): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  for (const number of rising) {
    const last = found.at(-1);
    if (last && number - last[1] <= 1) last[1] = number;
    else found.push([number, number]);
  }
  return found;
}
