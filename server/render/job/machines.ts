/** In what the machines of a card differ: each variant once, and what its parts are only for. */
import type { Variant, Which } from '../../../shared/card.ts';
import type { JobOnly, JobVariant } from '../../../shared/job.ts';
import type { Context } from '../context.ts';
import { inPrintedOrder, onlyOf, type Part, partsInside } from '../numbering.ts';
import { capitalised, spoken } from '../sentences/labels.ts';

export interface MachineTable {
  readonly variants: readonly JobVariant[];
  readonly onlys: readonly (readonly JobOnly[])[];
  /** By part of the card: the index in `onlys`. */
  readonly ofPart: ReadonlyMap<object, number>;
  /** The index in `onlys` of what a part is only for; undefined where it is for every machine of the card. */
  readonly onlyFor: (part: Part) => number | undefined;
}

export function machineTable({ input: { card, configuration }, words }: Context): MachineTable {
  const valuesOf = (variant: Variant): readonly string[] => {
    const applying = card.applies?.parts.filter((part) => part.variant === variant) ?? [];
    return variant.values.filter((value) => applying.every(({ values }) => values.includes(value)));
  };
  const tellingParts = (part: Part): Which['parts'] =>
    (configuration === undefined ? (onlyOf(part)?.parts ?? []) : []).filter(
      ({ variant, values }) => !valuesOf(variant).every((value) => values.includes(value)),
    );
  const asked = new Set(
    inPrintedOrder(card)
      .flatMap(withInside)
      .flatMap(tellingParts)
      .map(({ variant }) => variant),
  );
  const variants = card.equipment.variants.filter((variant) => asked.has(variant));
  const onlys: (readonly JobOnly[])[] = [];
  const ofPart = new Map<object, number>();
  const onlyFor = (part: Part): number | undefined => {
    const telling = tellingParts(part).map(({ variant, values }): JobOnly => {
      const own = valuesOf(variant).flatMap((value, index) => (values.includes(value) ? [index] : []));
      return { variant: variants.indexOf(variant), values: own };
    });
    if (telling.length === 0) return undefined;
    const index = onlys.push(telling) - 1;
    ofPart.set(part, index);
    return index;
  };
  return {
    variants: variants.map((variant) => ({
      label: capitalised(spoken(variant.name), words.tag),
      values: valuesOf(variant).map(spoken),
    })),
    onlys,
    ofPart,
    onlyFor,
  };
}

function withInside(part: Part): readonly Part[] {
  return [part, ...partsInside(part).flatMap(withInside)];
}
