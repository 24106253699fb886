/** Which starting states the card relies on and never checks: take one away, and see whether something goes wrong. */
import type { Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Break } from '../break.ts';
import { startOf } from '../exploring/start.ts';
import type { Reliance } from '../facts.ts';
import { allStates, bitsOf, isSingle } from '../meaning/state.ts';
import type { HazardBegins } from '../questions/hazard-begins.ts';
import type { NotFed } from '../questions/not-fed.ts';
import type { RuleBreak } from '../questions/rules.ts';
import type { Unprotected } from '../questions/unprotected.ts';
import { type Asking, askSafety } from './safety-asked.ts';

/** `hanging`: the items on whose start each of the questions hangs. */
export function* relianceOn(asking: Asking, hanging: readonly ReadonlySet<Item>[]): InParts<Reliance[]> {
  const { card } = asking;
  const start = startOf(card);
  const usual = yield* askSafety(asking);
  const reliances: Reliance[] = [];
  for (const item of card.equipment.items) {
    if (item.kind.seen || !isSingle(start(item)) || card.assumes.some((assumed) => assumed.item === item)) continue;
    const matters = hanging.map((items) => items.has(item));
    if (!matters.includes(true)) continue;
    const open = (one: Item) => (one === item ? allStates(one) : start(one));
    const { broken } = yield* askSafety(asking, (question) => matters[question] === true, open);
    const fresh = [...broken].find(([key]) => !usual.broken.has(key));
    if (fresh) reliances.push({ item, state: bitsOf(start(item))[0] as number, ...reasonOf(fresh[1]), assumed: false });
  }
  return reliances;
}

function reasonOf(fact: Break): Pick<Reliance, 'because' | 'from'> {
  const { rule, hazard, supply } = fact as Partial<RuleBreak & HazardBegins & Unprotected & NotFed>;
  if (rule) return { because: rule.title, from: 'rule' };
  if (hazard) return { because: hazard.label, from: 'hazard' };
  return supply ? { because: supply.label, from: 'supply' } : {};
}
