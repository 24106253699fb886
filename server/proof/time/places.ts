import type { Card, Item, Together } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { NoiseCriterion } from '../../../shared/settings.ts';
import { buildFlow } from '../../flow/build.ts';
import type { Configuration } from '../../flow/configurations.ts';
import { conditionsOf } from '../exploring/ask.ts';
import { exploreInTime } from '../exploring/explore-in-time.ts';
import { startState } from '../exploring/start.ts';
import type { KnownWays } from '../questions/known-ways.ts';
import { FlowIndex } from '../slicing/flow-index.ts';
import type { Places, Question } from '../slicing/question.ts';
import { Slice } from '../slicing/slice.ts';
import { countsTimeFor } from './counted-time.ts';
import { silentMoves } from './silence.ts';

export interface TimingInput {
  readonly card: Card;
  readonly configuration: Configuration;
  readonly start: (item: Item) => number;
  readonly stateBound: number;
  readonly noiseCriterion?: NoiseCriterion;
  /** The card as it is drawn for all other questions, and what they have found. */
  readonly index: FlowIndex;
  readonly ways: KnownWays;
}

/** All places of a card for a question of time, with the ways between them; of lanes that run together one is timed. */
export function* placesInTime(
  input: TimingInput,
  question: Pick<Question, 'items' | 'gauges' | 'monitors' | 'settle'>,
  lead: (lanes: Together['lanes']) => number,
  ofDuty?: Item,
): InParts<{ slice: Slice; places: Places }> {
  const { includes } = input.configuration;
  const isSilent = silentMoves(input.index, input.ways, question);
  const flow = buildFlow(input.card, {
    includes,
    lead,
    isSilent,
    joinsRounds: ofDuty !== undefined,
    isClosed: input.ways.isClosed,
  });
  yield;
  const index = new FlowIndex(flow, conditionsOf(input.card));
  yield;
  const asked: Question = {
    ...question,
    watches: (index) => {
      const timed = [...index.lasting, ...index.at('forget', 'finish', 'stopped')];
      const counts = ofDuty && countsTimeFor(ofDuty, input.start(ofDuty), index);
      return [
        ...(counts ? timed.filter(counts) : timed),
        ...index.at('fork', 'join'),
        ...question.items.flatMap((item) => index.movesOfItem(item)),
      ];
    },
    look: () => {},
  };
  const slice = new Slice(index, asked, input.start);
  yield;
  const { stateBound } = input;
  const places = yield* exploreInTime(slice, startState(slice), { stateBound, keepsWays: true });
  return { slice, places };
}
