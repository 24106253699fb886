/**
 * What the path engine can say of one card, as plain facts. It knows no finding: codes, levels and sentences are chosen by those who read this.
 */

import type {
  Action,
  Condition,
  Do,
  Duty,
  Gauge,
  Hazard,
  Item,
  Role,
  Rule,
  Seconds,
  Statement,
  Step,
  Supply,
  TimeSpan,
  Words,
} from '../../shared/card.ts';
import type { Exact } from '../../shared/exact.ts';
import type { InParts } from '../../shared/parts.ts';
import type { NoiseCriterion } from '../../shared/settings.ts';
import type { Place } from '../../shared/text.ts';
import type { Call } from '../flow/calls.ts';
import type { Happening, Reason } from '../flow/graph.ts';
import type { Ticks } from '../flow/time.ts';

/** One place on a path, and what happens there. */
export interface PathEvent {
  readonly place: Place;
  readonly happens: Occurrence;
  /** Where the card does the procedure that it stands in, if it does that several times. */
  readonly call?: Call;
  /** The time since the event before, where it is told, and which end of it counts. */
  readonly after?: TimeSpan & { readonly counts: keyof Ticks };
}

export type Occurrence =
  | Reason
  | ({ readonly type: 'set' } & ItemState)
  /** A run is over. */
  | { readonly type: 'goes-back'; readonly item: Item }
  | ({ readonly type: 'may-move' } & ItemState)
  | { readonly type: 'reading-ends'; readonly gauge: Gauge }
  /** Nothing on the path has settled it, and it is `isSure` or may be in a wrong state. */
  | { readonly type: 'since-start'; readonly item: Item; readonly wrong: readonly number[]; readonly isSure: boolean };

/** Something that goes wrong on at least one path. */
export interface Break {
  /** Where a writer would mend it. */
  readonly place: Place;
  /** The shortest path that shows it. */
  readonly path: readonly PathEvent[];
  /** The states were blended on this path: it may be a false alarm. */
  readonly blended: boolean;
  /** The sorts of machine on which it happens, each as it is named (`unit 3 to 4`); absent where it happens on all. */
  readonly configurations?: readonly string[];
  /** It stands in what the card does several times, and is so only where it is done at these places. */
  readonly calls?: readonly Call[];
}

export interface ItemState {
  readonly item: Item;
  /** Index in the states of its kind. */
  readonly state: number;
}

export interface RuleBreak extends Break {
  readonly rule: Rule;
  /** What may be so there, and need not, for which the rule asks something at all. */
  readonly mayBeMet: readonly Unmet[];
  /** What of the `require` does not hold there: an item with the states that it may have, or a reading that is not known or outside. */
  readonly unmet: readonly Unmet[];
  /** Where a supply or something that is only seen is what is wrong: the fewest settings, and checks of what is seen, that put it right. */
  readonly mend?: readonly ItemState[];
  /** Without a mend: what would put it right, but is only seen or moves by itself, and may change again with the action itself. */
  readonly hangsOn?: readonly ItemState[];
  /** It was so from the start of the card and is met at the first action. */
  readonly sinceStart: boolean;
}

export type Unmet =
  | {
      readonly type: 'item';
      readonly item: Item;
      readonly wanted: readonly number[];
      readonly possible: readonly number[];
    }
  /** `lostBy`: it was read on this path, and what has ended that since. */
  | { readonly type: 'reading'; readonly gauge: Gauge; readonly known: boolean; readonly lostBy?: Ending }
  | { readonly type: 'supply'; readonly supply: Supply; readonly node: number; readonly wanted: boolean }
  | {
      readonly type: 'time';
      readonly item: Item;
      readonly state: number;
      readonly form: 'at least' | 'at most';
      readonly wanted: Seconds;
      /** Where a shortest time is wanted: how much of it is sure on this path. */
      readonly sure?: Seconds;
    };

/** What has ended a reading: something that happened, at a step with words where it has some. */
export interface Ending {
  readonly happening: Happening;
  readonly followed?: Words;
}

export interface HazardBegins extends Break {
  readonly hazard: Hazard;
  /** An admonition for it still comes on some path: the place of that admonition. */
  readonly late?: Place;
  /** The statement (step or other) before which the admonition belongs. */
  readonly statement: Place;
}

export interface Unprotected extends Break {
  readonly hazard: Hazard;
  readonly unmet: readonly Unmet[];
}

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

export interface UnsafeStop extends Break {
  readonly hazard: Hazard;
}

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

export interface NotAssumed extends Break {
  readonly item: Item;
  readonly state: number;
  readonly possible: readonly number[];
}

export interface DutyBreak extends Break {
  readonly item: Item;
  readonly duty: Duty;
  readonly sort: 'too-long' | 'unbounded' | 'short-rest' | 'too-often';
  /** Seconds: the longest run, or the shortest rest or closest distance of the starts; for `too-often` by rest the longest rest that the path is sure of. */
  readonly worst?: Seconds;
  /** Seconds: what the duty asks for. */
  readonly limit: Seconds;
  /** Seconds of rest to add before this run; or seconds by which the run is too long. */
  readonly missing?: Seconds;
  /** For `too-often`: which run this is. */
  readonly count?: number;
}

/** A condition that the paths reach, and what they find there. */
export interface BranchFact {
  readonly statement: Statement | Action;
  readonly place: Place;
  /** A check, reading or the like stops or leaves when it fails; an `if` goes on another way. */
  readonly form: 'check' | 'if';
  readonly passes: boolean;
  readonly fails: boolean;
}

export interface Unreached extends Break {
  readonly step: Step;
  /** What the card does there, if the step is in it; told there. */
  readonly doing?: Do;
  /** Some step of what is done is reached. */
  readonly isBegun: boolean;
  /** Some machine that the card is for has the step. */
  readonly isDrawn: boolean;
}

export interface Dose extends Break {
  readonly role: Role;
  /** Percent of the permissible dose of 29 CFR 1910.95. */
  readonly percent: number;
  /** Some time is unknown and counts as none. */
  readonly atLeast: boolean;
}

export interface CardTime {
  readonly least: Seconds;
  /** Undefined: unknown, the most known part of it is `mostKnown`. */
  readonly most?: Seconds;
}

/** A starting state that the card relies on and never checks. */
export interface Reliance {
  readonly item: Item;
  readonly state: number;
  /** The writer's own reason for an assumption, else the name of what would not hold without it. */
  readonly because?: string;
  /** What has that name. Absent for a reason of the writer's own. */
  readonly from?: 'rule' | 'hazard' | 'supply';
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

/** What the questions of a card have found. */
export interface Facts {
  readonly rules: readonly RuleBreak[];
  readonly hazards: readonly HazardBegins[];
  readonly unprotected: readonly Unprotected[];
  readonly leftChanged: readonly LeftChanged[];
  readonly unsafeStops: readonly UnsafeStop[];
  readonly notFed: readonly NotFed[];
  readonly notAssumed: readonly NotAssumed[];
  readonly duties: readonly DutyBreak[];
  readonly branches: readonly BranchFact[];
  /** The first of each row of steps that no path reaches. */
  readonly unreachable: readonly Unreached[];
  /** The statement that closes a loop which no path leaves. */
  readonly endless: readonly Break[];
  /** Sets of what is so already on every path. */
  readonly noChange: readonly (Break & { readonly item: Item; readonly state: number })[];
  /** Of the items that the card sets, or assumes out of their normal state: what they may be when it finishes. */
  readonly atFinish: readonly ItemStates[];
  readonly doses: readonly Dose[];
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
  /** For the editor. */
  readonly statesAt: StatesAt;
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

export type { Call, Exact, Reason };
