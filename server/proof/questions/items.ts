import type { AssumedState, Condition, Item } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import type { Move } from '../../flow/graph.ts';
import { placeKey } from '../collector.ts';
import { movedByItself } from '../exploring/witness.ts';
import type { NotAssumed, NotFed, PathEvent } from '../facts.ts';
import { bitsOf, type State } from '../meaning/state.ts';
import type { Look, Node, Question } from '../slicing/question.ts';
import type { Context } from './context.ts';
import { hangingOn, mendOf } from './mend.ts';
import { whileQuestion } from './while.ts';

/** An item that needs a supply while in a state must be fed in every such state. */
export function needQuestion(item: Item, need: Item['needs'][number], context: Context): Question {
  const { place } = need;
  const trigger: Condition = { type: 'state', item, state: need.state, place };
  const require: Condition = { type: 'reaches', supply: need.supply, node: need.node, place };
  return whileQuestion(trigger, require, context, (look, broken) => {
    const { move } = look;
    context.collector.add(
      'notFed',
      `${item.id} ${need.state} ${need.supply.id} ${placeKey(move.place)}`,
      (): NotFed => {
        const mend = mendOf(require, broken.state, look, item);
        return {
          place: move.place,
          item,
          state: need.state,
          supply: need.supply,
          node: need.node,
          mend,
          causes: (mend ?? []).map((change) => lastMoved(change.item, look.node, context)),
          hangsOn: mend ? undefined : hangingOn(require, broken.state, look, item),
          path: [...context.path(look, look.items, []), ...movedHere(look, broken.state)],
          blended: look.node.blended,
        };
      },
      move.call,
    );
  });
}

/** Where the path to a place last moved an item. */
function lastMoved(item: Item, node: Node, { flow }: Context): Place | undefined {
  for (let at: Node | undefined = node; at?.move !== undefined; at = at.parent) {
    const { happening, place } = flow.moves[at.move] as Move;
    if ('item' in happening && happening.item === item) return place;
  }
  return undefined;
}

/** What may have moved by itself with the move that breaks it. */
function movedHere({ node, move, items, variables }: Look, after: State): PathEvent[] {
  return movedByItself(node.state, after, move, items, variables).map((one) => ({
    place: move.place,
    happens: { type: 'may-move', ...one },
  }));
}

/** A card that is done in this one may rely on states that are not so there. */
export function callQuestion(assumes: readonly AssumedState[], context: Context): Question {
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
        const possible = look.node.state[look.variables.ofItem(item) as number] as number;
        if (possible === 1 << state) continue;
        const { place } = look.move;
        context.collector.add(
          'notAssumed',
          `${item.id} ${placeKey(place)}`,
          (): NotAssumed => ({
            place,
            item,
            state,
            possible: bitsOf(possible),
            path: context.path(look, [item], [{ type: 'item', item, wanted: [state], possible: bitsOf(possible) }]),
            blended: look.node.blended,
          }),
        );
      }
    },
  };
}
