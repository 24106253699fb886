/** From a declared name to what it stands for in the card model. */
import type {
  Card,
  Equipment,
  Gauge,
  Hazard,
  Item,
  Kind,
  Limit,
  Role,
  Rule,
  Supply,
  Variant,
} from '../../shared/card.ts';
import { holds, type Place } from '../../shared/text.ts';
import type { Bound } from '../binding/bind.ts';
import type { Declared } from '../binding/references.ts';

export type Thing =
  | { readonly sort: 'item'; readonly item: Item }
  | { readonly sort: 'state'; readonly kind: Kind; readonly state: number }
  | { readonly sort: 'kind'; readonly kind: Kind }
  | { readonly sort: 'gauge'; readonly gauge: Gauge }
  | { readonly sort: 'limit'; readonly limit: Limit }
  | { readonly sort: 'supply'; readonly supply: Supply }
  | { readonly sort: 'hazard'; readonly hazard: Hazard }
  | { readonly sort: 'rule'; readonly rule: Rule }
  | { readonly sort: 'variant'; readonly variant: Variant }
  | { readonly sort: 'role'; readonly role: Role }
  | { readonly sort: 'card'; readonly card: Card };

/** Undefined for what has no part of its own in the model (a label, a procedure), or has a finding of its own. */
export function thingOf(declared: Declared, { equipment, cards }: Bound): Thing | undefined {
  const at = <Part extends { readonly place: Place }>(parts: readonly Part[]) =>
    parts.find((part) => holds(part.place, declared.place));
  switch (declared.sort) {
    case 'item':
    case 'node': {
      const item = at(equipment.items);
      return item && { sort: 'item', item };
    }
    case 'kind': {
      const kind = at(equipment.kinds);
      return kind && { sort: 'kind', kind };
    }
    case 'state':
      return stateOf(declared, equipment);
    case 'gauge': {
      const gauge = at(equipment.gauges);
      return gauge && { sort: 'gauge', gauge };
    }
    case 'limit': {
      const limit = at(equipment.gauges.flatMap(({ limits }) => limits));
      return limit && { sort: 'limit', limit };
    }
    case 'supply': {
      const supply = at(equipment.supplies);
      return supply && { sort: 'supply', supply };
    }
    case 'hazard': {
      const hazard = at(equipment.hazards);
      return hazard && { sort: 'hazard', hazard };
    }
    case 'rule': {
      const rule = at(equipment.rules);
      return rule && { sort: 'rule', rule };
    }
    case 'variant': {
      const variant = at(equipment.variants);
      return variant && { sort: 'variant', variant };
    }
    case 'role': {
      const role = at(cards.flatMap(({ crew }) => crew));
      return role && { sort: 'role', role };
    }
    case 'card': {
      const card = at(cards);
      return card && { sort: 'card', card };
    }
    default:
      return undefined;
  }
}

function stateOf(declared: Declared, { kinds }: Equipment): Thing | undefined {
  for (const kind of kinds) {
    const state = kind.states.findIndex(({ place }) => holds(place, declared.place));
    if (state >= 0) return { sort: 'state', kind, state };
  }
  return undefined;
}
