/** Is an item back where it belongs when the card finishes, and who took it away? */

import type { AssumedState, Card, Item } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import { callKey } from '../../flow/calls.ts';
import type { Flow, Move } from '../../flow/graph.ts';
import { type Break, type Occurrence, placeKey } from '../break.ts';
import { statesOf } from '../meaning/evaluate.ts';
import { bitsOf } from '../meaning/state.ts';
import { type Look, type Node, type Places, type Question, type Way, waysInto } from '../slicing/question.ts';
import type { Context, QuestionSort, SetRecord } from './sort.ts';

export interface LeftChanged extends Break {
  readonly item: Item;
  /** The states that it may be in at the finish, without the wanted one. */
  readonly left: readonly number[];
  readonly wanted: number;
  /** Where it is not back when the card finishes: at a `finish`, or at the end of the card. The path leads to the first. */
  readonly finishes: readonly Place[];
  /** It stands at an `assume`. */
  readonly assumed: boolean;
}

export const leftChanged: QuestionSort<LeftChanged> = {
  makers: (card, flow) =>
    changedIn(card, flow).map((item) => {
      const leaves = card.leaves.find((one) => one.item === item);
      const assumed = card.assumes.find((one) => one.item === item);
      return (context) => [putBackQuestion(item, leaves, assumed, context)];
    }),
  join: atAllFinishes,
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain" normally closed`,
      bad: `card a "A" {
  step set drain open
  //   ^^^^^^^^^^^^^^ leftChanged
}`,
      good: `card a "A" {
  step set drain open
  step set drain closed
}`,
    },
  ],
};

/** An item that the card assumes out of its normal state, and does not leave so, must be put back like one that the card changed. */
function assumedAway(card: Card, item: Item): boolean {
  const assumed = card.assumes.find((one) => one.item === item);
  if (!assumed || item.normally === undefined || assumed.state === item.normally) return false;
  return !card.leaves.some((left) => left.item === item && left.state === assumed.state);
}

/** The items that the card leaves otherwise, or might. */
function changedIn(card: Card, { moves }: Flow): Item[] {
  // A run ends by itself, unless another lane finishes the card meanwhile.
  const lasts = ({ happening, lane }: Move) => happening.type === 'set' || (happening.type === 'begin' && lane);
  const set = moves.flatMap((move) => ('item' in move.happening && lasts(move) ? [move.happening.item] : []));
  const away = card.assumes.flatMap(({ item }) => (assumedAway(card, item) ? [item] : []));
  return [...new Set([...set, ...away])];
}

function atAllFinishes(kept: LeftChanged, { finishes }: LeftChanged): LeftChanged {
  const known = new Set(kept.finishes.map(placeKey));
  return { ...kept, finishes: [...kept.finishes, ...finishes.filter((finish) => !known.has(placeKey(finish)))] };
}

/** Is the item back where it belongs at every finish, and does each `set` of it change something? */
function putBackQuestion(
  item: Item,
  leaves: AssumedState | undefined,
  assumed: AssumedState | undefined,
  context: Context<LeftChanged>,
): Question {
  const { sets, atFinish } = context.noted;
  const isSet = (move: Move) => move.happening.type === 'set' && move.happening.item === item;
  const home = [item.normally, leaves?.state];
  const away: Look[] = [];
  return {
    items: [item],
    gauges: [],
    monitors: [],
    watches: (index) => [
      ...index.at('finish'),
      ...index.movesOfItem(item).filter((move) => isSet(index.flow.moves[move] as Move)),
    ],
    look: (look) => {
      if (isSet(look.move)) recordSet(look, item, sets);
      else {
        atFinish.set(item, (atFinish.get(item) ?? 0) | maskOf(look, item));
        if (leftAt(look, item, home) !== 0) away.push(look);
      }
    },
    atEnd: (places, variables) => {
      if (item.normally === undefined) return;
      const ways = new WaysBack(item, home, places);
      const changes = lastChanges(away, ways, variables.ofItem(item) as number);
      for (const { look, origin, finishes: at } of changes) {
        const byCard = assumedAway(context.card, item) ? assumed?.place : undefined;
        const place = origin.way?.move.place ?? byCard;
        if (!place) continue;
        const fact = (): LeftChanged & { finishes: Place[] } => ({
          place,
          item,
          left: bitsOf(leftAt(look, item, home)),
          wanted: leaves?.state ?? (item.normally as number),
          finishes: [],
          assumed: !origin.way,
          path: context
            .path({ ...look, node: onward(origin) }, [item], [])
            .filter(({ happens }) => !isWayHome(happens, item, home)),
          blended: look.node.blended,
        });
        const { finishes } = context.collector.add(item.id, place, fact, origin.way?.move.call);
        for (const finish of at)
          if (!finishes.some((known) => placeKey(known) === placeKey(finish))) finishes.push(finish);
      }
    },
  };
}

/** It may go back by itself too: no part of a path on which it does not. */
function isWayHome(happens: Occurrence, item: Item, home: readonly (number | undefined)[]): boolean {
  return happens.type === 'may-move' && happens.item === item && home.includes(happens.state);
}

const maskOf = ({ node, variables }: Look, item: Item) => statesOf(item, node.state, variables);

function recordSet(look: Look, item: Item, sets: Map<number, SetRecord>): void {
  const { happening, place } = look.move;
  if (happening.type !== 'set') return;
  const already = maskOf(look, item) === 1 << happening.state;
  const known = sets.get(look.moveIndex);
  if (known) known.always &&= already;
  else sets.set(look.moveIndex, { item, state: happening.state, place, always: already });
}

/** The states, as a mask, in which it may not be left there. */
function leftAt(look: Look, item: Item, home: readonly (number | undefined)[]): number {
  return home.reduce<number>((left, state) => (state === undefined ? left : left & ~(1 << state)), maskOf(look, item));
}

/** A place on the way back from a finish. */
interface Back {
  readonly node: Node;
  /** The run that is over behind it: until it begins, what happens to the item counts for nothing. */
  readonly over: number | undefined;
  /** How it goes on to the finish, in so many moves. */
  readonly onward?: { readonly move: number; readonly to: Back };
  readonly length: number;
}

/** What took an item to where it is at a finish: a move, or what was so when the card began. */
interface Origin {
  readonly way?: Way;
  /** From there on nothing changes it. */
  readonly back: Back;
}

/** The ways of a card, to be gone back from where an item is left to what took it there. */
class WaysBack {
  private readonly into: ReadonlyMap<Node, readonly Way[]>;
  /** How many moves the shortest path to each node has. */
  private readonly depths: number[] = [];

  constructor(
    private readonly item: Item,
    /** The states in which it may be left. */
    private readonly home: readonly (number | undefined)[],
    places: Places,
  ) {
    this.into = waysInto(places);
    for (const { parent } of places.nodes) this.depths.push(parent ? this.depthOf(parent) + 1 : 0);
  }

  /** How many moves a shortest path by way of an origin has, without that of the origin itself: those of one change are compared. */
  lengthOf({ way, back }: Origin): number {
    return back.length + (way ? this.depthOf(way.from) : 0);
  }

  *originsOf(finish: Node, variable: number): Iterable<Origin> {
    const found = new Map<string, Back>();
    const add = (back: Back) => {
      const key = `${back.node.id} ${back.over}`;
      if (!found.has(key)) found.set(key, back);
    };
    add({ node: finish, over: undefined, length: 0 });
    for (const back of found.values()) {
      if (!back.node.parent && back.over === undefined) yield { back };
      for (const way of this.into.get(back.node) ?? []) {
        const { isChange, staysFor } = this.happensOn(way, back.over, variable);
        if (isChange) yield { way, back };
        for (const over of staysFor)
          add({ node: way.from, over, onward: { move: way.moveIndex, to: back }, length: back.length + 1 });
      }
    }
  }

  /** Whether a way takes the item out of where it may be left, and with which run being over it may be gone without a change. */
  private happensOn(
    way: Way,
    over: number | undefined,
    variable: number,
  ): { isChange?: boolean; staysFor: readonly (number | undefined)[] } {
    const { happening } = way.move;
    if (over !== undefined)
      return { staysFor: [happening.type === 'begin' && happening.run === over ? undefined : over] };
    if (!('item' in happening) || happening.item !== this.item) return { staysFor: [undefined] };
    if (happening.type === 'end') return { staysFor: [happening.run] };
    const [before, set] = [way.part[variable] as number, 1 << happening.state];
    return {
      isChange: (before & ~set) !== 0 && !this.home.includes(happening.state),
      staysFor: (before & set) === 0 ? [] : [undefined],
    };
  }

  private depthOf({ id }: Node): number {
    return this.depths[id] as number;
  }
}

interface LastChange {
  /** The look and the origin of the shortest path that it is on. */
  readonly look: Look;
  readonly origin: Origin;
  readonly finishes: Place[];
}

/** Each change once, by where it stands in the text and is done; that of the shortest path first. */
function lastChanges(away: readonly Look[], ways: WaysBack, variable: number): LastChange[] {
  const changes = new Map<string, LastChange>();
  for (const look of away) {
    for (const origin of ways.originsOf(look.node, variable)) {
      const { place, call } = origin.way?.move ?? {};
      const key = place ? `${placeKey(place)} ${call ? callKey(call) : ''}` : 'the start';
      const known = changes.get(key);
      const finishes = known?.finishes ?? [];
      finishes.push(look.move.place);
      const isShortest = !known || ways.lengthOf(origin) < ways.lengthOf(known.origin);
      changes.set(key, isShortest ? { look, origin, finishes } : known);
    }
  }
  return [...changes.values()].sort((a, b) => ways.lengthOf(a.origin) - ways.lengthOf(b.origin));
}

/** The finish, at the end of the path by way of an origin. */
function onward({ way, back }: Origin): Node {
  let node: Node = way ? { ...back.node, parent: way.from, move: way.moveIndex } : back.node;
  for (let { onward: next } = back; next; { onward: next } = next.to)
    node = { ...next.to.node, parent: node, move: next.move };
  return node;
}
