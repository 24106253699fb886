/** What may be so at a step, over all paths that reach it. */
import type { Item } from '../../shared/card.ts';
import type { ItemSituation, Situation } from '../../shared/protocol.ts';
import type { Settings } from '../../shared/settings.ts';
import type { Place } from '../../shared/text.ts';
import type { Snapshot } from '../snapshot.ts';
import { cardAt, stepAt } from './steps.ts';

export function situationAt(
  snapshot: Snapshot,
  offset: number,
  settings: Settings,
): (Omit<Situation, 'place'> & { readonly place: Place }) | undefined {
  const card = cardAt(snapshot, offset);
  const step = card && stepAt(card, snapshot.file, offset);
  if (!card || !step) return undefined;
  const possible = snapshot.proof(card, settings.stateBound).statesAt(step.place);
  return {
    place: step.place,
    items: possible.map(({ item, states }) => itemSituation(item, states)),
    supplies: [],
    runs: [],
  };
}

function itemSituation(item: Item, states: readonly number[]): ItemSituation {
  return {
    label: item.label,
    ...(item.at !== undefined && { at: item.at }),
    states: states.map((state) => item.kind.states[state]?.name ?? ''),
    changed: item.normally !== undefined && states.some((state) => state !== item.normally),
  };
}
