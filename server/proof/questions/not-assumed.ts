import type { AssumedState, Item } from '../../../shared/card.ts';
import type { Flow, Move } from '../../flow/graph.ts';
import type { Break } from '../break.ts';
import { statesOf } from '../meaning/evaluate.ts';
import { bitsOf } from '../meaning/state.ts';
import type { Question } from '../slicing/question.ts';
import type { Context, Maker, QuestionSort } from './sort.ts';

export interface NotAssumed extends Break {
  readonly item: Item;
  readonly state: number;
  readonly possible: readonly number[];
}

/** Is what a card assumes so where another card does it? */
export const notAssumed: QuestionSort<NotAssumed> = {
  makers: (_, flow) =>
    assumedIn(flow).map(
      (assumes): Maker<NotAssumed> =>
        (context) => [callQuestion(assumes, context)],
    ),
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain"
card drained "With the drain open" {
  assume drain open
  step "Look."
}`,
      bad: `card a "A" {
  do drained
//^^^^^^^^^^ notAssumed
}`,
      good: `card a "A" {
  step set drain open
  do drained
}`,
    },
  ],
};

function assumedIn({ moves }: Flow): (readonly AssumedState[])[] {
  return [...new Set(moves.flatMap(({ happening }) => (happening.type === 'call' ? [happening.assumes] : [])))];
}

/** A card that is done in this one may rely on states that are not so there. */
function callQuestion(assumes: readonly AssumedState[], context: Context<NotAssumed>): Question {
  return {
    items: assumes.map(({ item }) => item),
    gauges: [],
    monitors: [],
    watches: (index) =>
      index.at('call').filter((move) => {
        const { happening } = index.flow.moves[move] as Move;
        return happening.type === 'call' && happening.assumes === assumes;
      }),
    look: (look) => {
      for (const { item, state } of assumes) {
        const possible = statesOf(item, look.node.state, look.variables);
        if (possible === 1 << state) continue;
        const { place, call } = look.move;
        context.collector.add(
          item.id,
          place,
          (): NotAssumed => ({
            place,
            item,
            state,
            possible: bitsOf(possible),
            path: context.path(look, [item], [{ type: 'item', item, wanted: [state], possible: bitsOf(possible) }]),
            blended: look.node.blended,
          }),
          call,
        );
      }
    },
  };
}
