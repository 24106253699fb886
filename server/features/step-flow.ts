/** The flow of a card for the times that an editor shows: of lanes that run together one is followed. */
import { blocksOf } from '../../shared/blocks.ts';
import type { Card, Item, Stage, Statement, Step, Together } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { oncePerStructure } from '../../shared/structure.ts';
import { buildFlow } from '../flow/build.ts';
import { drives } from '../flow/drives.ts';
import type { Flow, Move } from '../flow/graph.ts';

type Lane = Together['lanes'][number];

const flowsOf = oncePerStructure(() => new Map<Lane | undefined, Flow>());

/** Follows the lanes that lead to a step, for all sorts of machine at once. */
export function flowToStep(card: Card, step: Step): Flow {
  return flowAlong(card, lanesOf(card).get(step) ?? []);
}

/** Follows the lanes that lead to a step, and beside them those that use an item. */
export function flowOfItem(card: Card, item: Item, step?: Step): Flow {
  const ofStep = (step && lanesOf(card).get(step)) ?? [];
  return buildFlow(card, {
    includes: () => true,
    lead: (lanes) => {
      const own = lanes.findIndex((lane) => ofStep.includes(lane));
      return own < 0 ? lanes.findIndex((lane) => drives(lane.body, item)) : own;
    },
  });
}

const entriesOfFlows = new WeakMap<Flow, ReadonlyMap<Step, readonly Move[]>>();

/** The moves that enter a step. */
export function entriesOf(step: Step, flow: Flow): readonly Move[] {
  return getOrInsert(entriesOfFlows, flow, () => entriesByStep(flow)).get(step) ?? [];
}

function entriesByStep({ moves }: Flow): ReadonlyMap<Step, readonly Move[]> {
  const entries = new Map<Step, Move[]>();
  for (const move of moves) for (const step of move.steps ?? []) getOrInsert(entries, step, () => []).push(move);
  return entries;
}

/** Made once for each lane of a card. */
function flowAlong(card: Card, followed: readonly Lane[]): Flow {
  return getOrInsert(flowsOf(card), followed.at(-1), () =>
    buildFlow(card, {
      includes: () => true,
      lead: (lanes) => lanes.findIndex((lane) => followed.includes(lane)),
    }),
  );
}

/** For each step in a lane the lanes around it, outermost first. */
const lanesOf = oncePerStructure((card) => {
  const lanes = new Map<Step, readonly Lane[]>();
  note(card.body, [], lanes);
  return lanes;
});

function note(body: readonly (Stage | Statement)[], around: readonly Lane[], lanes: Map<Step, readonly Lane[]>): void {
  for (const part of body) {
    if (part.type === 'step' && around.length > 0) lanes.set(part, around);
    if (part.type === 'together') for (const lane of part.lanes) note(lane.body, [...around, lane], lanes);
    else for (const block of blocksOf(part)) note(block, around, lanes);
  }
}
