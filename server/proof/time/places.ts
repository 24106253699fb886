import type { Item, Together } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import { buildFlow } from '../../flow/build.ts';
import { type Asked, conditionsOf } from '../exploring/ask.ts';
import { exploreInTime } from '../exploring/explore-in-time.ts';
import { startState } from '../exploring/start.ts';
import type { TimedContext } from '../questions/sort.ts';
import { FlowIndex } from '../slicing/flow-index.ts';
import type { Question } from '../slicing/question.ts';
import { Slice } from '../slicing/slice.ts';
import { countsTimeFor } from './counted-time.ts';
import { silentMoves } from './silence.ts';

/** All places of a card for a question of time, with the ways between them; of lanes that run together one is timed. */
export function* placesInTime(
  context: TimedContext,
  question: Pick<Question, 'items' | 'gauges' | 'monitors' | 'settle'>,
  lead: (lanes: Together['lanes']) => number,
  ofDuty?: Item,
): InParts<Asked> {
  const { includes } = context.configuration;
  const isSilent = silentMoves(context.index, context.ways, question);
  const flow = buildFlow(context.card, {
    includes,
    lead,
    isSilent,
    joinsRounds: ofDuty !== undefined,
    isClosed: context.ways.isClosed,
  });
  yield;
  const index = new FlowIndex(flow, conditionsOf(context.card));
  yield;
  const asked: Question = {
    ...question,
    watches: (index) => {
      const timed = [...index.takingTime, ...index.at('forget', 'finish', 'stopped')];
      const counts = ofDuty && countsTimeFor(ofDuty, context.start(ofDuty), index);
      return [
        ...(counts ? timed.filter(counts) : timed),
        ...index.at('fork', 'join'),
        ...standingStill(index, timed),
        ...question.items.flatMap((item) => index.movesOfItem(item)),
      ];
    },
    look: () => {},
  };
  const slice = new Slice(index, asked, context.start);
  yield;
  const { stateBound } = context;
  const places = yield* exploreInTime(slice, startState(slice), { stateBound, keepsWays: true });
  context.noteExplored({ slice, places });
  return { slice, places };
}

/** Moves of loops without an end in which no time passes: what is under way there is so for as long as it was before. */
function standingStill(index: FlowIndex, timed: readonly number[]): readonly number[] {
  const comesToTime = index.before(timed);
  return index.flow.moves.flatMap(({ from }, move) => (comesToTime[from] ? [] : [move]));
}
