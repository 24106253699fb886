import type { Condition, Item, Supply } from '../../../shared/card.ts';
import { termsIn } from '../../../shared/conditions.ts';
import { mostChanged, mostTried } from '../../flow/limits.ts';
import type { Answer, Split } from './answer.ts';

export interface Fed {
  readonly surely: ReadonlySet<number>;
  readonly perhaps: ReadonlySet<number>;
  /** What to look at to know more; absent where nothing is open. */
  readonly open?: Split;
}

/** The nodes that a source which is on reaches over links whose conditions hold. `ask` answers the condition of a source or link. */
export function nodesFed(supply: Supply, ask: (when: Condition) => Answer): Fed {
  const open: { split?: Split } = {};
  const answers = new Map<object, Answer>();
  for (const part of [...supply.sources, ...supply.links]) {
    const answer = part.when ? ask(part.when) : 'yes';
    if (typeof answer === 'object') open.split ??= answer;
    answers.set(part, answer);
  }
  const surely = spread(supply, (part) => answers.get(part) === 'yes');
  const perhaps = spread(supply, (part) => answers.get(part) !== 'no');
  return open.split ? { surely, perhaps, open: open.split } : { surely, perhaps };
}

export function suppliesNamed(condition: Condition): Supply[] {
  return [...termsIn(condition)].flatMap((term) => (term.type === 'reaches' ? [term.supply] : []));
}

function suppliesInConditionsOf(supply: Supply): Supply[] {
  return [...supply.sources, ...supply.links].flatMap(({ when }) => (when ? suppliesNamed(when) : []));
}

export function dependsOnSupplies(supply: Supply): boolean {
  return suppliesInConditionsOf(supply).length > 0;
}

/** The supply and all those that its sources and links ask about, directly or behind another. */
export function suppliesBehind(supply: Supply): Supply[] {
  const found = [supply];
  for (const one of found) {
    for (const other of suppliesInConditionsOf(one)) if (!found.includes(other)) found.push(other);
  }
  return found;
}

type Part = Supply['sources'][number] | Supply['links'][number];

function spread(supply: Supply, on: (part: Part) => boolean): Set<number> {
  const fed = new Set(supply.sources.filter(on).map((source) => source.node));
  const links = supply.links.filter(on);
  for (let before = -1; before !== fed.size; ) {
    before = fed.size;
    for (const link of links) {
      if (fed.has(link.from)) fed.add(link.to);
      else if (link.both && fed.has(link.to)) fed.add(link.from);
    }
  }
  return fed;
}

export interface Change {
  readonly item: Item;
  readonly state: number;
}

/** Fewer changes, or as many of which fewer can only be seen: what can be set is in the crew's hands. */
export function isNearer(some: readonly Change[], others: readonly Change[]): boolean {
  const seenIn = (changes: readonly Change[]) => changes.filter(({ item }) => item.kind.seen).length;
  return some.length < others.length || (some.length === others.length && seenIn(some) < seenIn(others));
}

/**
 * The fewest changes of items after which the goal holds, nearest first; undefined where none of up to four changes does.
 * `holdsWith` asks the goal in the present state with these changes made.
 */
export function fewestChanges(
  candidates: readonly Change[],
  holdsWith: (changes: readonly Change[]) => boolean,
): Change[] | undefined {
  let tried = 0;
  const search = (from: number, chosen: Change[], size: number): Change[] | undefined => {
    if (chosen.length === size) return tried++ < mostTried && holdsWith(chosen) ? chosen : undefined;
    for (let index = from; index < candidates.length; index++) {
      const change = candidates[index] as Change;
      if (chosen.some((other) => other.item === change.item)) continue;
      const found = search(index + 1, [...chosen, change], size);
      if (found) return found;
    }
    return undefined;
  };
  for (let size = 1; size <= mostChanged && tried < mostTried; size++) {
    const found = search(0, [], size);
    if (found) return found;
  }
  return undefined;
}
