import type { Equipment } from '../../shared/card.ts';
import type { Declarations } from './declare.ts';
import { bindGauges } from './gauges.ts';
import { bindHazards, bindRules } from './hazards.ts';
import { bindItems } from './items.ts';
import { bindKinds } from './kinds.ts';
import type { Work } from './names.ts';
import { bindSupplies } from './supplies.ts';
import { bindVariants } from './variants.ts';

/** The machine and its rules, from whichever files they come. What only names itself goes before what speaks of others. */
export function bindEquipment(work: Work, declarations: Declarations): Equipment {
  bindKinds(work, declarations);
  bindVariants(work, declarations.variants);
  const items = bindItems(work, declarations.items);
  const gauges = bindGauges(work, declarations.gauges);
  const supplies = bindSupplies(work, declarations.supplies);
  supplies.finish();
  items.finish();
  const hazards = bindHazards(work, declarations.hazards);
  const rules = bindRules(work, declarations.rules);
  return {
    kinds: [...work.names.kinds.values()].map(({ kind }) => kind),
    items: items.items,
    gauges,
    supplies: supplies.supplies,
    hazards,
    rules,
    variants: [...work.names.variants.values()].map(({ variant }) => variant),
  };
}
