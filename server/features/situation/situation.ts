/** What may be so at a step, over all paths that reach it: items, supplies, and what has run so far. */
import type { Card, Item, Step } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { ItemSituation, Situation } from '../../../shared/protocol.ts';
import type { Settings } from '../../../shared/settings.ts';
import type { Place } from '../../../shared/text.ts';
import type { Snapshot } from '../../snapshot.ts';
import { cardAt, stepAfter, stepAt } from '../steps.ts';
import { runsUntil } from './run-times.ts';
import { runsSvg } from './runs.ts';
import { supplySvg } from './supplies.ts';

export type PlacedSituation = Omit<Situation, 'place'> & { readonly place: Place };

export function* situationAt(
  snapshot: Snapshot,
  offset: number,
  settings: Settings,
): InParts<PlacedSituation | undefined> {
  const card = cardAt(snapshot, offset);
  const step = card && (stepAt(card, snapshot.file, offset) ?? stepAfter(card, snapshot.file, offset));
  if (!card || !step) return undefined;
  const { items, supplies } = card.equipment;
  const proof = yield* snapshot.proofInParts(card, settings);
  const entries = yield* proof.statesAt(step.place, items);
  const known = new Map(entries.map(({ item, states }) => [item, states]));
  const possible = (item: Item) => known.get(item) ?? item.kind.states.map((_, state) => state);
  return {
    place: step.place,
    items: entries.map(({ item, states }) => itemSituation(item, states)).sort((a, b) => urgency(a) - urgency(b)),
    supplies: supplies.map((supply) => ({ label: supply.label, svg: supplySvg(supply, possible) })),
    runs: items.flatMap((item) => runsOf(item, card, step)),
  };
}

function runsOf(item: Item, card: Card, step: Step): { label: string; svg: string }[] {
  const stretches = item.duties.length > 0 ? runsUntil(card, step, item) : [];
  return stretches.length > 0
    ? [{ label: `${item.label}, where all goes as written`, svg: runsSvg(item, stretches) }]
    : [];
}

function itemSituation(item: Item, states: readonly number[]): ItemSituation {
  return {
    label: item.label,
    ...(item.at !== undefined && { at: item.at }),
    states: states.map((state) => item.kind.states[state]?.name ?? ''),
    ...(item.normally !== undefined && { normal: isNormal(states, item.normally) }),
  };
}

function isNormal(states: readonly number[], normally: number): ItemSituation['normal'] {
  if (!states.includes(normally)) return 'no';
  return states.length > 1 ? 'perhaps' : 'yes';
}

/** What is not as normal comes first. */
function urgency({ normal }: ItemSituation): number {
  return normal === 'no' ? 0 : normal === 'perhaps' ? 1 : 2;
}
