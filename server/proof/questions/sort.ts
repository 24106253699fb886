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
  readonly note: (asked: Asked) => void;
}

/** What is found beside what goes wrong. */
export interface Noted {
  /** By their places. */
  readonly sets: Map<string, SetRecord>;
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

/** Makes questions that are asked together. */
export type Part<Fact extends Break> = (context: Context<Fact>) => readonly Question[];

export interface QuestionSort<Fact extends Break> {
  /** Where it goes wrong people get hurt: by asking these again it is found what a card relies on. */
  readonly isSafety?: true;
  /** What it asks of a card: each part is asked again by itself where a bound that it hangs on has become another. */
  parts?(card: Card, flow: Flow): readonly Part<Fact>[];
  /** What it asks of the times of a card. */
  timed?(context: TimedContext<Fact>): InParts<void>;
  /** What two facts with one key say together, of which the first is kept. */
  join?(kept: Fact, other: Fact): Fact;
  /** What is told of all that was found. */
  told?(facts: readonly Fact[]): readonly Fact[];
  /** Marks are named after its list in the proof. */
  readonly examples: readonly Example[];
}
