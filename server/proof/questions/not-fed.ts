import type { Condition, Item, Supply } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import type { Move } from '../../flow/graph.ts';
import type { Break, ItemState, PathEvent } from '../break.ts';
import { movedByItself } from '../exploring/witness.ts';
import type { State } from '../meaning/state.ts';
import type { Look, Node, Question } from '../slicing/question.ts';
import { hangingOn, mendOf } from './mend.ts';
import type { Context, QuestionSort } from './sort.ts';
import { whileQuestion } from './while.ts';

export interface NotFed extends Break {
  readonly item: Item;
  readonly state: number;
  readonly supply: Supply;
  readonly node: number;
  /** The fewest settings that feed it there; undefined where none do. */
  readonly mend?: readonly ItemState[];
  /** What made each item of the mend as it is; undefined where it was so since the start. */
  readonly causes: readonly (Place | undefined)[];
  /** Without a mend: what would feed it, but is only seen or moves by itself, and may change again with the action itself. */
  readonly hangsOn?: readonly ItemState[];
}

/** Does an item have the supply that it needs? */
export const notFed: QuestionSort<NotFed> = {
  makers: ({ equipment }) =>
    equipment.items.flatMap((item) => item.needs.map((need) => (context) => [needQuestion(item, need, context)])),
  reason: ({ supply }) => ({ because: supply.label, from: 'supply' }),
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item main-valve : valve "the main valve" normally closed
item motor : valve "the air motor" normally closed needs air while open
supply air "air" {
  source cart
  link cart -> motor when main-valve open
}`,
      bad: `card a "A" {
  step set motor open
  //   ^^^^^^^^^^^^^^ notFed
  step set motor closed
}`,
      good: `card a "A" {
  step set main-valve open
  step set motor open
  step set motor closed
  step set main-valve closed
}`,
    },
  ],
};

/** An item that needs a supply while in a state must be fed in every such state. */
function needQuestion(item: Item, need: Item['needs'][number], context: Context<NotFed>): Question {
  const { place } = need;
  const trigger: Condition = { type: 'state', item, state: need.state, place };
  const require: Condition = { type: 'reaches', supply: need.supply, node: need.node, place };
  return whileQuestion(trigger, require, context, (look, broken) => {
    const { move } = look;
    context.collector.add(
      `${item.id} ${need.state} ${need.supply.id}`,
      move.place,
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
