/** Who does what to the items of a shipped rulebook, in the order of the card. */
import type { Change, Item, Role, Stage, Statement } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import { stepsIn } from './card.ts';

export interface HandledItem {
  /** What the step says. */
  readonly change: Change;
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
      for (const change of action.changes) {
        const { item, state, place } = change;
        const { kind } = item;
        if (kind.place.file !== rulebook) continue;
        yield { change, item, kind: kind.name, becomes: kind.states[state]?.name, place, hands };
      }
    }
  }
}
