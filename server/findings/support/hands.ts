/** Who does what to the items of a shipped rulebook, in the order of the card. */
import type { Item, Role, Stage, Statement } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import { stepsIn } from './card.ts';

export interface HandledItem {
  readonly item: Item;
  /** The name of the kind, and of the state that the item is put into. */
  readonly kind: string;
  readonly becomes: string | undefined;
  readonly place: Place;
  /** Those who do the step; empty where it does not say. */
  readonly hands: readonly Role[];
}

export function* handledItems(body: readonly (Stage | Statement)[], rulebook: string): Generator<HandledItem> {
  for (const { step, laneRole } of stepsIn(body)) {
    const hands = step.roles.length === 0 && laneRole ? [laneRole] : step.roles;
    for (const action of step.actions) {
      if (action.type !== 'set' && action.type !== 'ensure') continue;
      for (const { item, state, place } of action.changes) {
        const { kind } = item;
        if (kind.place.file !== rulebook) continue;
        yield { item, kind: kind.name, becomes: kind.states[state]?.name, place, hands };
      }
    }
  }
}
