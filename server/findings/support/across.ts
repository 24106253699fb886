/** What findings across cards must know of a file: plain data, which can be kept, and sent as JSON. */
import type { Bound, Gauge, Limit } from '../../../shared/card.ts';
import { type Exact, exact } from '../../../shared/exact.ts';
import type { Interval } from '../../../shared/interval.ts';
import { boundWords, convert, type Sense, senseOf } from '../../../shared/quantity.ts';
import type { Place } from '../../../shared/text.ts';
import { type Quantity, unit } from '../../../shared/units.ts';
import type { Bound as Binding } from '../../binding/bind.ts';
import { boundsOf, faultOf, type MeasuredBound, writtenBounds } from './limits.ts';

export interface Across {
  readonly file: string;
  readonly cards: readonly CardAcross[];
  /** The sound bounds that the steps of its cards write out. */
  readonly bounds: readonly WrittenBound[];
  /** The limits that the file itself declares. */
  readonly limits: readonly DeclaredLimit[];
}

export interface CardAcross {
  readonly title: string;
  readonly place: Place;
  readonly number?: { readonly text: string; readonly place: Place };
}

export interface WrittenBound {
  readonly gauge: { readonly label: string; readonly place: Place; readonly unit: string; readonly sense: Sense };
  readonly form: Bound['form'];
  readonly place: Place;
  /** As a reader sees it, and as the language writes it. */
  readonly words: string;
  readonly written: string;
  readonly low?: End;
  readonly high?: End;
}

export interface End {
  /** In the unit of the gauge, near enough to rule out most pairs. */
  readonly near: number;
  /** As it stands: an exact fraction, its unit, and the places that were written. */
  readonly value: string;
  readonly unit: string;
  readonly places?: number;
}

export interface DeclaredLimit {
  readonly name: string;
  readonly gauge: string;
  readonly label: string;
  readonly place: Place;
  /** Equal where its values are. */
  readonly values: string;
}

export function acrossOf(file: string, { cards, equipment }: Binding): Across {
  return {
    file,
    cards: cards.map(({ title, place, number }) => ({
      title,
      place,
      ...(number && { number: { text: number.text, place: number.place } }),
    })),
    bounds: cards.flatMap((card) => [...writtenBounds(card)]).flatMap(writtenBound),
    limits: equipment.gauges
      .flatMap(({ limits }) => limits)
      .filter(({ place }) => place.file === file)
      .map(declaredLimit),
  };
}

function writtenBound(measured: MeasuredBound): WrittenBound[] {
  if (faultOf(measured)) return [];
  const { gauge, bound } = measured;
  const { label, place } = gauge;
  return [
    {
      gauge: { label, place, unit: gauge.unit.symbol, sense: senseOf(gauge) },
      form: bound.form,
      place: bound.place,
      words: boundWords(bound),
      written: boundWords(bound, 'symbol'),
      ...(bound.low && { low: endOf(bound.low, gauge) }),
      ...(bound.high && { high: endOf(bound.high, gauge) }),
    },
  ];
}

function endOf(end: Quantity, gauge: Gauge): End {
  return {
    near: convert(end, gauge.unit, senseOf(gauge)).value.valueOf(),
    value: end.value.toFraction(),
    unit: end.unit.symbol,
    ...(end.places !== undefined && { places: end.places }),
  };
}

export function quantityOf({ value, unit: symbol, places }: End): Quantity {
  return { value: exact(value), unit: unit(symbol), ...(places !== undefined && { places }) };
}

/** In the unit of the gauge, so that a twentieth of a temperature is one of the figure that is read. */
export function inUnitOf(gauge: WrittenBound['gauge'], end: End): Exact {
  return convert(quantityOf(end), unit(gauge.unit), gauge.sense).value;
}

function declaredLimit(limit: Limit): DeclaredLimit {
  return {
    name: limit.name,
    gauge: limit.gauge.name,
    label: limit.gauge.label,
    place: limit.place,
    values: JSON.stringify(boundsOf(limit).map(({ interval }) => intervalWords(interval))),
  };
}

function intervalWords({ low, high }: Interval): unknown {
  return [low, high].map((end) => end && [end.value.toFraction(), end.open]);
}
