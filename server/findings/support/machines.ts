/** What is looked for on each sort of machine by itself: a card need not be the same on all of them. */
import type { Card } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { configurations } from '../../proof/facts.ts';
import type { Found } from '../finding.ts';
import type { Has } from './card.ts';
import { foundOn } from './words.ts';

/** What is found on the machines that a card is for, each once; what is not so on all of them says on which it is. */
export function foundOnMachines(card: Card, find: (has: Has, machines: string) => Iterable<Found>): Found[] {
  const sorts = configurations(card);
  const all = new Map<string, { readonly found: Found; readonly on: string[] }>();
  for (const { machines, includes } of sorts) {
    const told = new Map<string, Found>();
    for (const found of find((part) => !('only' in part) || includes(part.only), machines))
      told.set(keyOf(found), found);
    for (const [key, found] of told) getOrInsert(all, key, () => ({ found, on: [] })).on.push(machines);
  }
  return [...all.values()].map(({ found, on }) => (on.length === sorts.length ? found : foundFor(on, found)));
}

function keyOf({ place: { file, start, end }, message }: Found): string {
  return `${file} ${start} ${end} ${message}`;
}

function foundFor(configurations: readonly string[], { place, message, ...more }: Found): Found {
  return foundOn({ place, path: [], blended: false, configurations }, message, more);
}
