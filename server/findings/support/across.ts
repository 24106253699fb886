/** What findings across cards must know of a file: plain data, which can be kept, and sent as JSON. */
import type { Parsed } from '../../../grammar/syntax.ts';
import type { AssumedState, Bound, Card, Gauge, Item, Limit } from '../../../shared/card.ts';
import { type Exact, exact } from '../../../shared/exact.ts';
import type { Interval } from '../../../shared/interval.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { boundWords, convert, type Sense, senseOf } from '../../../shared/quantity.ts';
import type { Place } from '../../../shared/text.ts';
import { type Quantity, unit } from '../../../shared/units.ts';
import type { Bound as Binding } from '../../binding/bind.ts';
import { actionsIn, stateName } from './card.ts';
import { boundsOf, type MeasuredBound, writtenBounds } from './limits.ts';

export interface Across {
  readonly file: string;
  readonly cards: readonly CardAcross[];
  /** The sound bounds that the steps of its cards write out. */
  readonly bounds: readonly WrittenBound[];
  /** The limits that the file itself declares. */
  readonly limits: readonly DeclaredLimit[];
  /** The items that the file itself declares. */
  readonly items: readonly ItemAcross[];
  /** Where the items and cards are declared that it names. */
  readonly named: readonly Place[];
  /** The files that it reaches. */
  readonly reached: readonly string[];
  /** Something in it was not understood, which may have named anything. */
  readonly incomplete: boolean;
}

export interface ItemAcross {
  readonly label: string;
  readonly place: Place;
}

/** An item in a state. */
export interface StateAcross {
  readonly item: ItemAcross;
  readonly state: string;
}

export interface CardAcross {
  readonly title: string;
  readonly place: Place;
  readonly number?: { readonly text: string; readonly place: Place };
  /** What it assumes that some card before it must have left so. */
  readonly assumes: readonly (StateAcross & { readonly name: string; readonly place: Place })[];
  /** What it may leave so. */
  readonly leaves: readonly StateAcross[];
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

/** `before`: what it was, where nothing has changed but bounds. */
export function acrossOf(
  file: string,
  source: { readonly parsed: Parsed; readonly bound: Binding },
  before?: Across,
): Across {
  const { cards, equipment, files, problems } = source.bound;
  const limits = equipment.gauges.flatMap((gauge) => gauge.limits).filter(({ place }) => place.file === file);
  const bounds = { bounds: cards.flatMap(boundsAcross), limits: limits.map(declaredLimit) };
  if (before) return { ...before, ...bounds };
  return {
    file,
    cards: cards.map(cardAcross),
    ...bounds,
    items: equipment.items.filter(({ place }) => place.file === file).map(itemAcross),
    named: [...new Map(namedIn(file, source.bound).map((place) => [placeKey(place), place])).values()],
    reached: files.filter((one) => one !== file),
    incomplete: source.parsed.problems.length > 0 || problems.some(({ type }) => type === 'unknown-name'),
  };
}

export function placeKey({ file, start }: Place): string {
  return `${file}\n${start}`;
}

/** Tells whether a place is one of these. */
export function placesAmong(places: Iterable<Place>): (place: Place) => boolean {
  const starts = new Map<string, Set<number>>();
  for (const { file, start } of places) getOrInsert(starts, file, () => new Set()).add(start);
  return ({ file, start }) => starts.get(file)?.has(start) === true;
}

export function stateKey({ item, state }: StateAcross): string {
  return `${placeKey(item.place)}\n${state}`;
}

function namedIn(file: string, { references, equipment, wholeKinds }: Binding): Place[] {
  const named = references.uses.filter(({ place }) => place.file === file).map(({ declared }) => declared);
  return [
    ...named.filter(({ sort }) => sort === 'item' || sort === 'card'),
    ...equipment.items.filter(({ kind }) => wholeKinds.has(kind)),
  ].map(({ place }) => place);
}

function cardAcross(card: Card): CardAcross {
  const { title, place, number, assumes, leaves, body } = card;
  const changes = [...actionsIn(body)].flatMap((action) => ('changes' in action ? action.changes : []));
  return {
    title,
    place,
    ...(number && { number: { text: number.text, place: number.place } }),
    assumes: assumes.filter(isLeft).map((assumed) => ({
      ...stateAcross(assumed),
      name: assumed.item.name,
      place: assumed.place,
    })),
    // What has no normal state stays as it was set last.
    leaves: [...leaves, ...changes.filter(({ item }) => item.normally === undefined)].map(stateAcross),
  };
}

/** Neither normal nor brought about by something else than a card. */
function isLeft({ item, state }: AssumedState): boolean {
  return state !== item.normally && !item.kind.seen && item.may.length === 0;
}

function stateAcross({ item, state }: Pick<AssumedState, 'item' | 'state'>): StateAcross {
  return { item: itemAcross(item), state: stateName(item, state) };
}

function itemAcross({ label, place }: Item): ItemAcross {
  return { label, place };
}

const known = new WeakMap<MeasuredBound, readonly WrittenBound[]>();

/** They stay where only words of the card change, and all but one where a number does. */
function boundsAcross(card: Card): readonly WrittenBound[] {
  return writtenBounds(card).flatMap((one) => getOrInsert(known, one, () => writtenBound(one)));
}

function writtenBound({ gauge, bound, fault }: MeasuredBound): WrittenBound[] {
  if (fault) return [];
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

/** The cards that know what a file declares; undefined where one of their files was not understood, or there are none. */
export function cardsThatReach(file: string, files: readonly Across[]): readonly CardAcross[] | undefined {
  const reaching = files.filter((one) => one.cards.length > 0 && (one.file === file || one.reached.includes(file)));
  if (reaching.length === 0 || reaching.some(({ incomplete }) => incomplete)) return undefined;
  return reaching.flatMap(({ cards }) => cards);
}
