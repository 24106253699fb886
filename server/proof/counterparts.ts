/**
 * Two versions of a card that differ in nothing that a proof looks at: in the texts of steps and admonitions, in comments, in blanks. Each part of one
 * has its counterpart in the other, and so has each place.
 */
import type { Card } from '../../shared/card.ts';
import { isExact } from '../../shared/exact.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place, Span } from '../../shared/text.ts';

/** An end of a place, which may move along with its text. */
interface End {
  readonly place: Place;
  readonly end: keyof Span;
}

/** Offsets of one text with the ends of places in the other. */
type Offsets = Map<number, End>;

export class Counterparts {
  /** Places too: a place of its own has moved along where its offsets have become others. */
  private readonly parts = new Map<object, object>();
  private readonly offsets = new Map<string, Offsets>();

  private constructor() {}

  /** Undefined where the cards differ in something that counts. */
  static of(card: Card, other: Card): Counterparts | undefined {
    const found = new Counterparts();
    return found.pair(card, other, '') ? found : undefined;
  }

  /** The other way: parts, and places that are those of parts. */
  turnedRound(): Counterparts {
    const turned = new Counterparts();
    for (const [one, other] of this.parts) turned.parts.set(other, one);
    return turned;
  }

  /** A value that speaks of one card, as it is said of the other. */
  translate<Value>(value: Value): Value {
    return this.inOther(value, new Map()) as Value;
  }

  private inOther(value: unknown, made: Map<object, unknown>): unknown {
    if (typeof value !== 'object' || value === null) return value;
    const known = this.parts.get(value) ?? made.get(value);
    if (known !== undefined) return known;
    if (isPlace(value)) return this.placeInOther(value);
    if (value instanceof Set) return new Set([...value].map((one) => this.inOther(one, made)));
    if (Array.isArray(value)) return value.map((one) => this.inOther(one, made));
    if (Object.getPrototypeOf(value) !== Object.prototype) return value;
    const copy: Record<string, unknown> = {};
    made.set(value, copy);
    for (const [key, one] of Object.entries(value)) copy[key] = this.inOther(one, made);
    return copy;
  }

  /** A place that is made of ends of others. */
  private placeInOther({ file, start, end }: Place): Place {
    const offsets = this.offsets.get(file) as Offsets;
    const [from, to] = [offsets.get(start) as End, offsets.get(end) as End];
    return { file, start: from.place[from.end], end: to.place[to.end] };
  }

  private pair(one: unknown, other: unknown, key: string): boolean {
    if (one === other) return true;
    if (typeof one !== 'object' || typeof other !== 'object' || !one || !other) return false;
    if (isExact(one)) return isExact(other) && one.equals(other);
    if (isPlace(one) && isPlace(other)) return this.pairPlaces(one, other);
    const known = this.parts.get(one);
    if (known !== undefined) return known === other;
    // Facts speak of what has a place of its own, and every circle goes through such a part.
    if ('place' in one) this.parts.set(one, other);
    return Array.isArray(one) ? this.pairLists(one, other, key) : this.pairFields(one, other, key);
  }

  /** A list hands on what it is a list of. */
  private pairLists(ones: readonly unknown[], others: object, key: string): boolean {
    if (!Array.isArray(others) || ones.length !== others.length) return false;
    return ones.every((one, index) => this.pair(one, others[index], key));
  }

  private pairFields(one: object, other: object, key: string): boolean {
    let fields = 0;
    for (const name in one) {
      fields++;
      if (!(name in other)) return false;
      if (name === 'text' && key === 'texts') continue;
      if (!this.pair(one[name as never], other[name as never], name)) return false;
    }
    for (const _ in other) fields--;
    return fields === 0;
  }

  private pairPlaces(one: Place, other: Place): boolean {
    const offsets = getOrInsert(this.offsets, one.file, () => new Map());
    this.parts.set(one, other);
    return (
      one.file === other.file && pairOffsets(offsets, one, other, 'start') && pairOffsets(offsets, one, other, 'end')
    );
  }
}

function pairOffsets(offsets: Offsets, one: Place, other: Place, end: keyof Span): boolean {
  const known = getOrInsert(offsets, one[end], () => ({ place: other, end }));
  return known.place[known.end] === other[end];
}

function isPlace(value: Partial<Place>): value is Place {
  return value.file !== undefined;
}
