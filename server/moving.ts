/**
 * Places that move with their text. Where one token reads otherwise, a snapshot is not made anew: what was worked out stays, and what
 * stands behind the token moves along, in place.
 */
import type { ChangedToken } from '../grammar/one-token.ts';
import type { Condition, Words } from '../shared/card.ts';
import { isExact } from '../shared/exact.ts';
import type { Place, Span } from '../shared/text.ts';

type Moving = { -readonly [Key in keyof Span]: Span[Key] };

/** A bound that is written out, and the gauge that it is held against. */
export type Held = Extract<Condition, { type: 'bound' }>;

export class MovingPlaces {
  private readonly spans: Moving[] = [];
  /** Where each of them begins and ends, so that those that stay where they are need not be read: they lie all over the memory. */
  private readonly starts: number[] = [];
  private readonly ends: number[] = [];
  private readonly seen = new Set<object>();
  /** The words of steps and admonitions, on which nothing else hangs. */
  private readonly words: Words[] = [];
  private readonly held: Held[] = [];
  private atFirst: number | undefined;

  constructor(private readonly file: string) {}

  /** Most of them are of what is no more. */
  get isWornOut(): boolean {
    return this.atFirst !== undefined && this.spans.length > 2 * this.atFirst;
  }

  /** The nodes of the file's own tree: all spans below it are of this file. */
  addTree(root: object): void {
    this.walk(root, () => true);
  }

  /** What is said of the file, and of others: only places in this one move. */
  add(root: object): void {
    this.walk(root, ({ file }) => file === this.file);
  }

  /** None where something beside steps and admonitions says these words. */
  wordsAt(start: number): readonly Words[] {
    return this.words.filter(({ place }) => place.start === start);
  }

  boundsAround({ start, end }: Span): readonly Held[] {
    return this.held.filter(({ bound: { place } }) => place.start <= start && end <= place.end);
  }

  move({ start, end, changedUpTo, by }: Pick<ChangedToken, 'start' | 'end' | 'changedUpTo' | 'by'>): void {
    this.atFirst ??= this.spans.length;
    if (by === 0) return;
    for (const [at, span] of this.spans.entries()) {
      const [spanStart, spanEnd] = [this.starts[at] as number, this.ends[at] as number];
      if (spanStart >= end) span.start = this.starts[at] = spanStart + by;
      if (spanEnd >= changedUpTo && spanEnd > start) span.end = this.ends[at] = spanEnd + by;
    }
  }

  private walk(root: object, isOwn: (place: Partial<Place>) => boolean): void {
    const waiting: unknown[] = [root];
    while (waiting.length > 0) {
      const value = waiting.pop();
      if (typeof value !== 'object' || value === null || this.seen.has(value) || isExact(value)) continue;
      this.seen.add(value);
      if (Array.isArray(value)) for (const one of value) waiting.push(one);
      else if (value instanceof Map) for (const pair of value) waiting.push(...pair);
      else if (value instanceof Set) for (const one of value) waiting.push(one);
      else {
        this.note(value, isOwn);
        for (const name in value) waiting.push(value[name as never]);
      }
    }
  }

  private note(value: Partial<Span> & { readonly texts?: unknown }, isOwn: (place: Partial<Place>) => boolean) {
    const { start, end, texts } = value;
    if (typeof start === 'number' && typeof end === 'number' && isOwn(value)) {
      this.spans.push(value as Moving);
      this.starts.push(start);
      this.ends.push(end);
    }
    if (Array.isArray(texts)) for (const one of texts) if (isWords(one) && isOwn(one.place)) this.words.push(one);
    if (isHeld(value) && isOwn(value.bound.place)) this.held.push(value);
  }
}

function isHeld(value: object): value is Held {
  const { type, bound } = value as Partial<Held>;
  return type === 'bound' && bound?.place !== undefined;
}

function isWords(value: Partial<Words>): value is Words {
  return typeof value.text === 'string' && value.place !== undefined;
}
