import { type Cancellation, never } from '../../shared/cancel.ts';
import type { Card, Item, Together } from '../../shared/card.ts';
import { buildFlow } from '../flow/build.ts';
import type { Configuration } from '../flow/configurations.ts';
import { conditionsOf } from './ask.ts';
import type { PlaceGraph, Way } from './duties.ts';
import { explore } from './explore.ts';
import { FlowIndex } from './flow-index.ts';
import type { Question } from './question.ts';
import { Slice } from './slice.ts';
import { startState } from './start.ts';

export interface TimingInput {
  readonly card: Card;
  readonly configuration: Configuration;
  readonly start: (item: Item) => number;
  readonly stateBound: number;
  readonly cancellation?: Cancellation;
}

/** All places of a card for a question of time, with the ways between them; of lanes that run together only one is followed. */
export function placesInTime(
  input: TimingInput,
  question: Pick<Question, 'items' | 'gauges' | 'own'>,
  lead: (lanes: Together['lanes']) => number,
): { slice: Slice; graph: PlaceGraph } {
  const flow = buildFlow(input.card, { includes: input.configuration.includes, lead });
  const slice = new Slice(new FlowIndex(flow, conditionsOf(input.card)), {
    ...question,
    watches: (index) => [
      ...index.lasting,
      ...index.finishes,
      ...index.stops,
      ...index.forks,
      ...question.items.flatMap((item) => index.movesOfItem(item)),
    ],
    look: () => {},
  });
  const ways: Way[][] = [];
  const { nodes } = explore(
    slice,
    startState(slice, input.start, () => false),
    {
      stateBound: input.stateBound,
      cancellation: input.cancellation ?? never,
      onWay: (from, move, moveIndex, to) => {
        ways[from.id] ??= [];
        ways[from.id]?.push({ move, moveIndex, to });
      },
    },
  );
  return { slice, graph: { nodes, ways: nodes.map(({ id }) => ways[id] ?? []) } };
}
