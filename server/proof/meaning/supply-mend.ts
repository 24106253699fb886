/** Mends of supplies that take more changes than are tried one combination after the other. */
import type { Condition, Supply } from '../../../shared/card.ts';
import { type Change, isNearer } from './supply.ts';

/** The fewest changes after which a condition surely holds, or surely does not; undefined where none is found. */
export type ChangesFor = (condition: Condition, holds: boolean) => readonly Change[] | undefined;

/** The way from a source to the node with the nearest changes; undefined where there is none. Changes that two links share count once. */
export function changesThatFeed(supply: Supply, node: number, changesFor: ChangesFor): readonly Change[] | undefined {
  const best = new Map<number, readonly Change[]>();
  const reach = (to: number, changes: readonly Change[] | undefined): boolean => {
    const known = best.get(to);
    if (!changes || (known && !isNearer(changes, known))) return false;
    best.set(to, changes);
    return true;
  };
  for (const source of supply.sources) reach(source.node, changesOf(source, true, changesFor));
  for (let changed = true; changed; ) {
    changed = false;
    for (const link of supply.links) {
      const closing = changesOf(link, true, changesFor);
      changed = reach(link.to, joined(best.get(link.from), closing)) || changed;
      if (link.both) changed = reach(link.from, joined(best.get(link.to), closing)) || changed;
    }
  }
  return best.get(node);
}

/** Changes that open every source and link that can be opened, less those without which the node is cut off all the same. */
export function changesThatCut(
  supply: Supply,
  changesFor: ChangesFor,
  isCut: (changes: readonly Change[]) => boolean,
): readonly Change[] | undefined {
  const parts = [...supply.sources, ...supply.links];
  const all = parts.reduce<readonly Change[]>(
    (changes, part) => joined(changes, changesOf(part, false, changesFor)) ?? changes,
    [],
  );
  if (!isCut(all)) return undefined;
  return all.reduce((needed, change) => {
    const rest = needed.filter((other) => other !== change);
    return isCut(rest) ? rest : needed;
  }, all);
}

function changesOf(
  { when }: { readonly when?: Condition },
  holds: boolean,
  changesFor: ChangesFor,
): readonly Change[] | undefined {
  if (when) return changesFor(when, holds);
  return holds ? [] : undefined;
}

/** Both together; undefined where one is missing, or where they want an item in two states. */
function joined(
  some: readonly Change[] | undefined,
  others: readonly Change[] | undefined,
): readonly Change[] | undefined {
  if (!some || !others) return undefined;
  const isAgainst = (other: Change) => some.some(({ item, state }) => item === other.item && state !== other.state);
  if (others.some(isAgainst)) return undefined;
  return [...some, ...others.filter((other) => !some.some(({ item }) => item === other.item))];
}
