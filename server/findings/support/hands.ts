/** Who does what to the items of a shipped rulebook, in the order of the card. */
import type { Card, Change, Item, Role, Stage, Step } from '../../../shared/card.ts';
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
  readonly stage: Stage | undefined;
  /** Those who do the step; empty where it does not say and the card has several roles. */
  readonly hands: readonly Role[];
}

export function* handledItems({ body, crew }: Card, rulebook: string): Generator<HandledItem> {
  for (const part of body) {
    const stage = part.type === 'stage' ? part : undefined;
    for (const { step, laneRole } of stepsIn([part])) {
      const around = laneRole ? [laneRole] : crew.length === 1 ? crew : [];
      const hands = step.roles.length === 0 ? around : step.roles;
      for (const change of changesIn(step)) {
        const { item, state, place } = change;
        const { kind } = item;
        if (kind.place.file !== rulebook) continue;
        yield { change, item, kind: kind.name, becomes: kind.states[state]?.name, place, stage, hands };
      }
    }
  }
}

function changesIn({ actions }: Step): readonly Change[] {
  return actions.flatMap((action) => (action.type === 'set' || action.type === 'ensure' ? action.changes : []));
}
