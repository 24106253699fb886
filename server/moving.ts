/**
 * Places that move with their text. Where a letter is typed into words, a snapshot is not made anew: everything that was worked out
 * stays, and what stands behind the letter moves along, in place.
 */
import type { Change } from '../grammar/rewording.ts';
import type { Words } from '../shared/card.ts';
import { isExact } from '../shared/exact.ts';
import type { Place, Span } from '../shared/text.ts';

type Moved = { -readonly [Key in keyof Span]: Span[Key] };

export class MovingPlaces {
  private readonly spans: Moved[] = [];
  private readonly seen = new Set<object>();
  /** The words of steps and admonitions, on which nothing else hangs. */
  private readonly words: Words[] = [];

  constructor(private readonly file: string) {}

  /** The nodes of the file's own tree: all spans below it are of this file. */
  addTree(root: object): void {
    this.walk(root, () => true);
  }

  /** What is said of the file, and of others: only places in this one move. */
  add(root: object): void {
    this.walk(root, ({ file }) => file === this.file);
  }

  /** Undefined where something beside steps and admonitions may say these words, or hang on them. */
  wordsAt(start: number): readonly Words[] {
    return this.words.filter(({ place }) => place.start === start);
  }

  move({ start, removed, added }: Change): void {
    const [end, by] = [start + removed, added - removed];
    if (by === 0) return;
    for (const span of this.spans) {
      if (span.end < end) continue;
      span.end += by;
      if (span.start > start || span.start === span.end - by) span.start += by;
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
        const { start, end, texts } = value as Partial<Span> & { readonly texts?: unknown };
        if (typeof start === 'number' && typeof end === 'number' && isOwn(value)) this.spans.push(value as Moved);
        if (Array.isArray(texts)) for (const one of texts) if (isWords(one)) this.words.push(one);
        for (const name in value) waiting.push(value[name as never]);
      }
    }
  }
}

function isWords(value: Partial<Words>): value is Words {
  return typeof value.text === 'string' && value.place !== undefined;
}
