import { blocksOf } from '../../shared/blocks.ts';
import type { Card, Do, Stage, Statement } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';

/** One of several places of a card at which it does the same procedure or card. */
export interface Call {
  readonly name: string;
  readonly place: Place;
  /** Which it is in the text, from 1, and of how many. */
  readonly number: number;
  readonly of: number;
  /** The text that is done, which serves the others too. */
  readonly text: Place;
}

/** For each `do` of the card's own text that is one of several, what is to be said of it. */
export function callsOf(card: Card): ReadonlyMap<Do, Call> {
  const written = new Map<string, Do[][]>();
  for (const each of doesIn(card.body)) {
    const same = getOrInsert(written, each.name, () => []);
    const rounds = same.find(
      ([known]) => known?.place.start === each.place.start && known.place.file === each.place.file,
    );
    if (rounds) rounds.push(each);
    else same.push([each]);
  }
  const calls = new Map<Do, Call>();
  for (const [name, places] of written) {
    for (const [index, rounds] of places.entries()) {
      for (const each of places.length > 1 ? rounds : []) {
        const text = textOf(each);
        if (text) calls.set(each, { name, place: each.place, number: index + 1, of: places.length, text });
      }
    }
  }
  return calls;
}

function doesIn(body: readonly (Stage | Statement)[]): Do[] {
  return body.flatMap((part) => (part.type === 'do' ? [part] : blocksOf(part).flatMap(doesIn)));
}

function textOf({ body }: Do): Place | undefined {
  const [first, last] = [body[0], body.at(-1)];
  return first && last && { ...first.place, end: last.place.end };
}
