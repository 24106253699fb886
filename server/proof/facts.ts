/**
 * What the path engine can say of one card, as plain facts. It knows no finding: codes, levels and sentences are chosen by those who read this.
 */

import type { Change, Condition, Item, Role, Seconds, Step } from '../../shared/card.ts';
import type { InParts } from '../../shared/parts.ts';
import type { NoiseCriterion } from '../../shared/settings.ts';
import type { Place } from '../../shared/text.ts';
import type { QuestionFacts } from './all-questions.ts';
import type { Break, Call } from './break.ts';
import type { BranchFact } from './questions/branches.ts';
import type { Because } from './questions/sort.ts';
import type { Unreached } from './questions/structure.ts';
import type { CardTime } from './time/card-time.ts';

/** A starting state that the card relies on and never checks. */
export interface Reliance {
  readonly item: Item;
  readonly state: number;
  /** The writer's own reason for an assumption, else the name of what would not hold without it. */
  readonly because?: string;
  /** What has that name. Absent for a reason of the writer's own. */
  readonly from?: Because['from'];
  readonly assumed: boolean;
}

/** The card relies on this item's having rested before the card begins. */
export interface RestReliance {
  readonly item: Item;
  readonly rest: Seconds;
}

export interface ItemStates {
  readonly item: Item;
  /** Indices in the states of its kind, in order. */
  readonly states: readonly number[];
}

/** The states of items before what happens at a step or action, over all paths; those where no path comes are left out. */
export type StatesAt = (place: Place, items: readonly Item[]) => InParts<readonly ItemStates[]>;

/** Changes that are followed along all paths. Each is an object of the card, another one wherever the card does its step. */
export interface Following {
  /** From here on this one is followed, and not what was before. */
  readonly begins: ReadonlySet<Change>;
  readonly ends: ReadonlySet<Change>;
  /** It is told what reaches these: just before the change, or where the step is entered. */
  readonly asks: ReadonlySet<Change | Step>;
}

/** A change from which some path leads on, on machines of one sort, with nothing that ends it in between. */
export interface Reach {
  readonly change: Change;
  /** To here; absent where the card finishes. */
  readonly at?: Change | Step;
  readonly machines: string;
  /** Where the card does what the change stands in, and what it reaches, each if it does that several times. */
  readonly changeIn?: Call | undefined;
  readonly atIn?: Call | undefined;
}

/** What the questions of a card have found. */
export interface Facts extends QuestionFacts {
  readonly branches: readonly BranchFact[];
  /** The first of each row of steps that no path reaches. */
  readonly unreachable: readonly Unreached[];
  /** Sets of what is so already on every path. */
  readonly noChange: readonly (Break & { readonly item: Item; readonly state: number })[];
  /** Of the items that the card sets, or assumes out of their normal state: what they may be when it finishes. */
  readonly atFinish: readonly ItemStates[];
  readonly restReliances: readonly RestReliance[];
  /** The names of the sorts of machine, in order; one nameless where the card is the same for all machines. */
  readonly configurations: readonly string[];
  /** False where there are more configurations than are proved. */
  readonly allConfigurations: boolean;
}

export interface Proof extends Facts {
  /** All of them: the same object where the questions were asked again and found the same. */
  readonly facts: Facts;
  readonly time: CardTime;
  readonly timePerRole: readonly { readonly role: Role; readonly time: CardTime }[];
  readonly reliances: readonly Reliance[];
  /** What checks ask that a rule, a hazard or a need hangs on. Worked out only when it is read. */
  readonly checksReliedOn: ReadonlySet<Condition>;
  /** What the items of `atFinish` may be where the card stops. Worked out only when it is read. */
  readonly atStops: readonly ItemStates[];
  /** For the editor. */
  readonly statesAt: StatesAt;
  readonly reaching: (following: Following) => InParts<readonly Reach[]>;
  /** Works out the times and reliances, which otherwise are when they are first read. */
  readonly workOut: () => InParts<void>;
  /** Somebody has begun to work out something of it, and may go on. */
  readonly isUnderWay: () => boolean;
  /** How many states were explored, over all questions. */
  readonly explored: number;
}

export interface ProofOptions {
  /** The most states that one question may explore before the engine blends. */
  readonly stateBound: number;
  /** By which noise is measured; 90 dBA and 5 dB where none is given. */
  readonly noiseCriterion?: NoiseCriterion;
}

/** The calls in which something is so, where it is not in all. */
export { onlyIn } from '../flow/calls.ts';
/** The sorts of machine on which a card reads differently. */
export { type Configuration, configurations } from '../flow/configurations.ts';
