/** What is looked for on each sort of machine by itself: a card need not be the same on all of them. */
import type { Card } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import type { Break, Call } from '../../proof/break.ts';
import { configurations, onlyIn } from '../../proof/facts.ts';
import type { Found } from '../finding.ts';
import type { Has } from './card.ts';
import { foundOn } from './words.ts';

/** What is found in what the card does several times says in which call. */
export interface FoundInCall extends Found {
  readonly call?: Call | undefined;
}

/** What is found on the machines that a card is for, each once; what is not so on all of them, or in each call, says where it is. */
export function foundOnMachines(card: Card, find: (has: Has, machines: string) => Iterable<FoundInCall>): Found[] {
  const sorts = configurations(card);
  const all = new Map<string, { found: Found; on: Set<string>; calls: Set<Call | undefined> }>();
  for (const { machines, includes } of sorts) {
    for (const { call, ...found } of find((part) => !('only' in part) || includes(part.only), machines)) {
      const { on, calls } = getOrInsert(all, keyOf(found), () => ({
        found,
        on: new Set<string>(),
        calls: new Set<Call | undefined>(),
      }));
      on.add(machines);
      calls.add(call);
    }
  }
  return [...all.values()].map(({ found, on, calls }) =>
    foundIn({ ...(on.size < sorts.length && { configurations: [...on] }), calls: onlyIn(calls) }, found),
  );
}

function keyOf({ place: { file, start, end }, message }: Found): string {
  return `${file} ${start} ${end} ${message}`;
}

function foundIn(where: Pick<Break, 'configurations' | 'calls'>, { place, message, ...more }: Found): Found {
  return foundOn({ place, path: [], blended: false, ...where }, message, more);
}
