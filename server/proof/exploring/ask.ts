/** Asks questions of one flow. */

import type { Card, Condition, Gauge, Item } from '../../../shared/card.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { Move } from '../../flow/graph.ts';
import type { Ending, PathEvent, Unmet } from '../break.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Look, Places, Question } from '../slicing/question.ts';
import { Slice } from '../slicing/slice.ts';
import { exploreInTime } from './explore-in-time.ts';
import { startOf, startState } from './start.ts';
import { lostBy, pathTo } from './witness.ts';

export interface Asked {
  readonly slice: Slice;
  readonly places: Places;
}

export interface AskOptions {
  readonly stateBound: number;
}

/** Asks one question after another of a card and flow. */
export class Asker {
  private slice: Slice | undefined;

  constructor(
    private readonly card: Card,
    readonly index: FlowIndex,
    private readonly options: AskOptions,
    private readonly start = startOf(card),
  ) {}

  readonly path = ({ node, move }: Look, about: readonly Item[], unmet: readonly Unmet[]): readonly PathEvent[] => {
    const before = unmet.filter((term) => term.type !== 'item' || !isMovedBy(move, term.item));
    return pathTo(node, this.slice as Slice, about, before, this.card.place);
  };
  readonly lostBy = (look: Look, gauge: Gauge): Ending | undefined => lostBy(look.node, this.slice as Slice, gauge);

  *ask(question: Question): InParts<Asked> {
    const slice = new Slice(this.index, question, this.start);
    this.slice = slice;
    yield;
    const places = yield* exploreInTime(slice, startState(slice), this.options);
    question.atEnd?.(places, slice, slice.valueAt);
    return { slice, places };
  }
}

/** What the move itself makes of an item was not so before. */
function isMovedBy({ happening }: Move, item: Item): boolean {
  return 'item' in happening && happening.item === item;
}

/** All that the equipment asks of states and readings, so that readings are told apart where it matters. */
export function conditionsOf(card: Card): readonly Condition[] {
  const { rules, hazards, supplies, items } = card.equipment;
  return [
    ...rules.flatMap(({ condition, require }) => [condition, require]),
    ...hazards.flatMap(({ condition, protect }) => [condition, protect]),
    ...supplies.flatMap(({ sources, links }) => [...sources, ...links].map(({ when }) => when)),
    ...items.flatMap(({ may }) => may.map(({ when }) => when)),
  ].filter((condition) => condition !== undefined);
}
