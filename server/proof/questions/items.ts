import type { AssumedState, Condition, Item } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import type { Move } from '../../flow/graph.ts';
import { placeKey } from '../collector.ts';
import { assumedAway } from '../exploring/ask.ts';
import { movedByItself } from '../exploring/witness.ts';
import type { LeftChanged, NotAssumed, NotFed, PathEvent } from '../facts.ts';
import { bitsOf, type State } from '../meaning/state.ts';
import type { Monitor } from '../slicing/monitor.ts';
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

/** Records of the `set`s that never changed anything; the proof reads them when all configurations are through. */
export interface SetRecord {
  readonly item: Item;
  readonly state: number;
  readonly place: Move['place'];
  always: boolean;
}

/** What the proof gathers of what is set, over all configurations. */
export interface SetRecords {
  readonly sets: Map<string, SetRecord>;
  /** The states that an item may be in at the finishes, as a mask. */
  readonly atFinish: Map<Item, number>;
}

/** Is the item back where it belongs at every finish, and does each `set` of it change something? */
export function putBackQuestion(
  item: Item,
  leaves: AssumedState | undefined,
  assumed: AssumedState | undefined,
  records: SetRecords,
  context: Context,
): Question {
  const isSet = (move: Move) => move.happening.type === 'set' && move.happening.item === item;
  const changedBy = changedByMonitor(item, leaves, context);
  return {
    items: [item],
    gauges: [],
    monitors: item.normally === undefined ? [] : [changedBy],
    watches: ({ flow, finishes, movesOfItem }) => [
      ...finishes,
      ...movesOfItem(item).filter((move) => isSet(flow.moves[move] as Move)),
    ],
    look: (look) => {
      if (isSet(look.move)) recordSet(look, item, records.sets);
      else {
        const { atFinish } = records;
        atFinish.set(item, (atFinish.get(item) ?? 0) | maskOf(look, item));
        lookAtFinish(look, item, leaves, assumed, look.monitor(changedBy), context);
      }
    },
  };
}

/** The value where the card's own `assume` has the item out of its normal state. */
const changedByAssume = -1;

/** The move (plus one) that last took the item out of the states in which it may be left. */
function changedByMonitor(item: Item, leaves: AssumedState | undefined, { card }: Context): Monitor {
  const home = [item.normally, leaves?.state];
  return {
    name: 'changed by',
    start: assumedAway(card, item) ? changedByAssume : 0,
    changesOf: item,
    step: ({ move: { happening }, site, before, after }) => {
      if ((happening.type !== 'set' && happening.type !== 'begin') || happening.item !== item) return undefined;
      if (before(item) === after(item)) return undefined;
      return home.includes(happening.state) ? 0 : site;
    },
  };
}

const maskOf = ({ node, variables }: Look, item: Item) => node.state[variables.ofItem(item) as number] as number;

function recordSet(look: Look, item: Item, sets: Map<string, SetRecord>): void {
  const { happening, place } = look.move;
  if (happening.type !== 'set') return;
  const variable = look.variables.ofItem(item);
  const already = variable !== undefined && look.node.state[variable] === 1 << happening.state;
  // One `set` may stand for several items, in a `for each` or a procedure: it changes nothing where it changes none of them.
  const key = placeKey(place);
  const known = sets.get(key);
  if (known) known.always &&= already;
  else sets.set(key, { item, state: happening.state, place, always: already });
}

function lookAtFinish(
  look: Look,
  item: Item,
  leaves: AssumedState | undefined,
  assumed: AssumedState | undefined,
  changedBy: number | undefined,
  context: Context,
): void {
  const variable = look.variables.ofItem(item);
  if (!changedBy || variable === undefined || item.normally === undefined) return;
  const wanted = leaves?.state ?? item.normally;
  const left = (look.node.state[variable] as number) & ~(1 << item.normally) & ~(1 << wanted);
  if (left === 0) return;
  const byAssume = changedBy === changedByAssume;
  const place = byAssume && assumed ? assumed.place : (context.flow.moves[changedBy - 1] as Move).place;
  const finish = look.move.place;
  const { finishes } = context.collector.add(
    'leftChanged',
    `${item.id} ${placeKey(place)}`,
    (): LeftChanged & { finishes: Place[] } => ({
      place,
      item,
      left: bitsOf(left),
      wanted,
      finishes: [],
      assumed: byAssume,
      path: context.path(look, [item], []),
      blended: look.node.blended,
    }),
  );
  if (!finishes.some((known) => placeKey(known) === placeKey(finish))) finishes.push(finish);
}

/** A card that is done in this one may rely on states that are not so there. */
export function callQuestion(assumes: readonly AssumedState[], context: Context): Question {
  return {
    items: assumes.map(({ item }) => item),
    gauges: [],
    monitors: [],
    watches: ({ flow, calls }) =>
      calls.filter((move) => {
        const { happening } = flow.moves[move] as Move;
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
