import { blocksOf } from '../../shared/blocks.ts';
import type { Card, Do, Stage, Statement } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';

/** One of several places at which the same procedure or card is done. */
export interface Call {
  readonly name: string;
  readonly place: Place;
  /** Which it is, as the card comes to them, from 1, and of how many. */
  readonly number: number;
  readonly of: number;
  /** Where what it stands in is done, if that is one of several places too. */
  readonly outer?: Call;
}

/** For each `do` that is one of several, what is to be said of it; without what it stands in. */
export function callsOf(card: Card): ReadonlyMap<Do, Omit<Call, 'outer'>> {
  const written = new Map<string, Do[][]>();
  for (const each of doesIn(card.body)) {
    const same = getOrInsert(written, each.name, () => []);
    const atOnePlace = same.find(
      ([known]) => known?.place.start === each.place.start && known.place.file === each.place.file,
    );
    if (atOnePlace) atOnePlace.push(each);
    else same.push([each]);
  }
  const calls = new Map<Do, Call>();
  for (const [name, places] of written) {
    for (const [index, does] of places.entries()) {
      for (const each of places.length > 1 ? does : [])
        calls.set(each, { name, place: each.place, number: index + 1, of: places.length });
    }
  }
  return calls;
}

function doesIn(body: readonly (Stage | Statement)[]): Do[] {
  return body.flatMap((part) => [...(part.type === 'do' ? [part] : []), ...blocksOf(part).flatMap(doesIn)]);
}

/**
 * The calls in which something is so: of one name, each once; none where it is so in all of them, or elsewhere too. Where an inner one is meant
 * whichever outer ones it stands in, those are left out, and likewise the inner ones where it is so in each of them.
 */
export function onlyIn(all: Iterable<Call | undefined>): readonly Call[] {
  const calls = [...all];
  const [first] = calls;
  if (!first || calls.some((call) => call?.name !== first.name)) return [];
  const numbers = new Map<number, Call[]>();
  for (const call of calls) if (call) getOrInsert(numbers, call.number, () => []).push(call);
  const told = [...numbers.values()].map((same) => {
    const [{ outer: _, ...call }] = same as [Call];
    const outers = onlyIn(same.map(({ outer }) => outer));
    return outers.length === 0 ? [call] : outers.map((outer): Call => ({ ...call, outer }));
  });
  const outersOf = (some: readonly Call[]) => some.flatMap(({ outer }) => outer ?? []);
  const [outers, ...others] = told.map(outersOf) as [Call[], ...Call[][]];
  const isInEach = numbers.size === first.of && others.every((some) => callKey(...some) === callKey(...outers));
  return isInEach ? outers : told.flat().sort((a, b) => a.number - b.number);
}

/** The same for the same calls. */
export function callKey(...calls: readonly Call[]): string {
  return calls.map(({ name, number, outer }) => `${name} ${number}${outer ? ` in ${callKey(outer)}` : ''}`).join();
}
