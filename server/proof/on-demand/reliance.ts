/** Which starting states the card relies on and never checks: take one away, and see whether something goes wrong. */
import type { Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import { startOf } from '../exploring/start.ts';
import type { Reliance } from '../facts.ts';
import { allStates, bitsOf, isSingle } from '../meaning/state.ts';
import { type Asking, askSafety } from './safety-asked.ts';

/** `hanging`: the items on whose start each of the questions hangs, by its name. */
export function* relianceOn(asking: Asking, hanging: ReadonlyMap<string, ReadonlySet<Item>>): InParts<Reliance[]> {
  const { card } = asking;
  const start = startOf(card);
  const usual = yield* askSafety(asking);
  const reliances: Reliance[] = [];
  for (const item of card.equipment.items) {
    if (item.kind.seen || !isSingle(start(item)) || card.assumes.some((assumed) => assumed.item === item)) continue;
    const matters = (question: string) => hanging.get(question)?.has(item) === true;
    if (![...hanging.keys()].some(matters)) continue;
    const open = (one: Item) => (one === item ? allStates(one) : start(one));
    const { broken } = yield* askSafety(asking, matters, open);
    const fresh = [...broken].find(([key]) => !usual.broken.has(key));
    if (fresh) reliances.push({ item, state: bitsOf(start(item))[0] as number, ...fresh[1], assumed: false });
  }
  return reliances;
}
