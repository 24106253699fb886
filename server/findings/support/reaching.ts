/** What was done before and still counts, over all the paths of a card. */
import type { Change, Item } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { finish } from '../../../shared/parts.ts';
import type { Proof } from '../../proof/facts.ts';
import type { HandledItem } from './hands.ts';

/** What is followed of each item with which something begins: the last that has begun, until something ends it. */
export interface Followed {
  readonly begins: (handled: HandledItem) => boolean;
  readonly ends: (later: HandledItem, earlier: HandledItem) => boolean;
  /** Where it is told what has begun; where it ends if nothing is said. */
  readonly asks?: (later: HandledItem, earlier: HandledItem) => boolean;
}

/** What has begun and not ended on some path on machines of one sort, in the order of the card. */
export interface Reaching {
  readonly before: (later: HandledItem) => readonly HandledItem[];
  readonly atFinish: readonly HandledItem[];
}

export function reaching(
  proof: Proof,
  all: readonly HandledItem[],
  { begins, ends, asks = ends }: Followed,
): (machines: string) => Reaching {
  const byItem = new Map<Item, HandledItem[]>();
  for (const one of all.filter(begins)) getOrInsert(byItem, one.item, () => []).push(one);
  const found = [...byItem.values()].flatMap((begun) => {
    const [first] = begun as [HandledItem];
    const changes = (some: readonly HandledItem[]) => new Set(some.map(({ change }) => change));
    const those = (fits: Followed['ends']) => changes(all.filter((one) => fits(one, first)));
    return finish(proof.reaching({ begins: changes(begun), ends: those(ends), asks: those(asks) }));
  });
  return (machines) => {
    const byPlace = new Map<Change | undefined, Set<Change>>();
    for (const { at, change, machines: on } of found)
      if (on === machines) getOrInsert(byPlace, at, () => new Set()).add(change);
    const before = (later?: HandledItem) => all.filter(({ change }) => byPlace.get(later?.change)?.has(change));
    return { before, atFinish: before() };
  };
}

/** Whether a stage ends in between: where it does, work may stop. */
export function isOverStages(earlier: HandledItem, later: HandledItem): boolean {
  return earlier.stage !== undefined && later.stage !== earlier.stage && !later.stage?.whenStopped;
}
