/** A sort of question is one file: what it asks and remembers, what it finds, and two cards that show it. */

import type { Card, Gauge, Item, Step } from '../../../shared/card.ts';
import type { Example } from '../../../shared/finding.ts';
import type { InParts } from '../../../shared/parts.ts';
import type { NoiseCriterion } from '../../../shared/settings.ts';
import type { Place } from '../../../shared/text.ts';
import type { Configuration } from '../../flow/configurations.ts';
import type { Flow } from '../../flow/graph.ts';
import type { Break, Ending, PathEvent, Unmet } from '../break.ts';
import type { Collector } from '../collector.ts';
import type { Asked } from '../exploring/ask.ts';
import type { FlowIndex } from '../slicing/flow-index.ts';
import type { Look, Question } from '../slicing/question.ts';
import type { KnownWays } from './known-ways.ts';

/** What questions are asked with, of a card on machines of one sort. */
export interface Context<Fact extends Break = Break> {
  readonly card: Card;
  readonly flow: Flow;
  /** Takes what goes wrong. */
  readonly collector: Pick<Collector<Fact>, 'add' | 'addWorst'>;
  readonly noted: Noted;
  /** The states that an item may have at the start, as a mask. */
  readonly start: (item: Item) => number;
  /** What has ended the last reading of a gauge on the way; undefined where it was not read. */
  readonly lostBy: (look: Look, gauge: Gauge) => Ending | undefined;
  /**
   * The shortest path to what is looked at. `about`: the items whose states are told on it; `unmet`: what nothing on it has settled is told at its start.
   * It and `lostBy` speak of the question that is being asked: not to be called once that is over.
   */
  readonly path: (look: Look, about: readonly Item[], unmet: readonly Unmet[]) => readonly PathEvent[];
}

/** What questions of time are asked with: each draws the card for itself. */
export interface TimedContext<Fact extends Break = Break> extends Context<Fact> {
  readonly configuration: Configuration;
  /** The card as it is drawn for all other questions, and what they have found. */
  readonly index: FlowIndex;
  readonly ways: KnownWays;
  readonly stateBound: number;
  readonly noiseCriterion?: NoiseCriterion;
  /** Is told of all that was explored. */
  readonly noteExplored: (asked: Asked) => void;
}

/** What is found beside what goes wrong. */
export interface Noted {
  /** By the indices of their moves. */
  readonly sets: Map<number, SetRecord>;
  /** The states that an item may be in at the finishes, as a mask. */
  readonly atFinish: Map<Item, number>;
  readonly reached: Set<Step>;
  readonly relyingOnRest: Set<Item>;
}

/** A `set`, and whether it never changed anything; the proof reads them when all configurations are through. */
export interface SetRecord {
  readonly item: Item;
  readonly state: number;
  readonly place: Place;
  always: boolean;
}

/**
 * Makes questions that are asked together. They are made anew each time that they are asked: what a question collects meanwhile is made in here, and
 * not around it.
 */
export type Maker<Fact extends Break> = (context: Context<Fact>) => readonly Question[];

/** The name of what would not hold if a card relied on something that is not so. */
export interface Because {
  readonly because: string;
  readonly from: 'rule' | 'hazard' | 'supply';
}

/** Its members are methods, so that a sort of any facts is one of breaks. */
export interface QuestionSort<Fact extends Break> {
  /** What it asks of a card: each maker's questions are asked again by themselves where a bound that they hang on has become another. */
  makers?(card: Card, flow: Flow): readonly Maker<Fact>[];
  /** What it asks of the times of a card. */
  timed?(context: TimedContext<Fact>): InParts<void>;
  /**
   * Where it goes wrong people get hurt, and this is what they trusted in: what a card relies on is found by asking these once more, of cards in which
   * more may be so.
   */
  reason?(fact: Fact): Because;
  /** What two facts about the same at one place say together, of which the first is kept. */
  join?(kept: Fact, other: Fact): Fact;
  /** What is told of all that was found, on all machines. */
  conclude?(facts: readonly Fact[]): readonly Fact[];
  /** The last card of each is proved. Marks have the name of its list in the proof. */
  readonly examples: readonly Example[];
}
