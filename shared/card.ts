/**
 * The card model: what a card and its equipment say once every name is bound. Plain read-only data; each part knows its place.
 * Procedures and cards that are `do`ne, and the rounds of a `for each`, are already written out with the items they work on.
 */
import type { Exact } from './exact.ts';
import type { Interval } from './interval.ts';
import type { Place } from './text.ts';
import type { Quantity, Unit } from './units.ts';

/** Seconds, exact. */
export type Seconds = Exact;

/** From `least` to `most` seconds; `most` undefined is unknown. */
export interface TimeSpan {
  readonly least: Seconds;
  readonly most?: Seconds;
}

/** A text with its slots resolved, as a reader sees it. */
export interface Words {
  readonly text: string;
  readonly place: Place;
}

export interface Kind {
  readonly name: string;
  /** Only seen, never set: a lamp, a trip, a needle's band. */
  readonly seen: boolean;
  readonly states: readonly KindState[];
  readonly place: Place;
}

export interface KindState {
  readonly name: string;
  /** What the placard says, where it is not the name. */
  readonly printed?: string;
  /** The wording with `{}` where the item's label stands. */
  readonly wording?: string;
  /** Further wordings by which a text may name the same; never printed. */
  readonly others?: readonly string[];
  readonly place: Place;
}

/** A state is an index into `kind.states`. */
export interface Item {
  /** Index in `Equipment.items`: dense, in the order of declaration. */
  readonly id: number;
  readonly name: string;
  readonly label: string;
  readonly kind: Kind;
  readonly at?: string;
  readonly normally?: number;
  /** The normal state is to be looked at before the card relies on it. */
  readonly verify: boolean;
  readonly may: readonly { readonly state: number; readonly when?: Condition; readonly place: Place }[];
  /** Noise reduction rating in dB. */
  readonly reduces?: Exact;
  readonly needs: readonly {
    readonly supply: Supply;
    readonly node: number;
    readonly state: number;
    readonly place: Place;
  }[];
  readonly duties: readonly Duty[];
  /** The place of its name. */
  readonly place: Place;
}

export type Duty =
  | {
      readonly type: 'longest';
      readonly state: number;
      readonly limit: Seconds;
      readonly rest?: Seconds;
      readonly place: Place;
    }
  | {
      readonly type: 'times-then-rest';
      readonly state: number;
      readonly times: number;
      readonly rest: Seconds;
      readonly place: Place;
    }
  | {
      readonly type: 'times-in-window';
      readonly state: number;
      readonly times: number;
      readonly window: Seconds;
      readonly place: Place;
    };

export interface Gauge {
  readonly id: number;
  readonly name: string;
  readonly label: string;
  readonly unit: Unit;
  readonly at?: string;
  /** Worked out from two others. */
  readonly difference?: { readonly left: Gauge; readonly sign: '-' | '+'; readonly right: Gauge };
  /** In the gauge's own unit. */
  readonly reads?: { readonly from: Exact; readonly to: Exact; readonly by?: Exact; readonly place: Place };
  readonly limits: readonly Limit[];
  /** Where given, only actions on these items end what is known of the gauge. */
  readonly movedBy?: readonly Item[];
  readonly place: Place;
}

export interface Limit {
  readonly name: string;
  readonly gauge: Gauge;
  readonly bound?: Bound;
  /** A limit that depends on what another gauge shows. */
  readonly by?: { readonly gauge: Gauge; readonly rows: readonly { readonly when: Bound; readonly bound: Bound }[] };
  readonly source?: string;
  readonly place: Place;
}

/** A bound as written, and as an exact interval in the base unit of the gauge's dimension. */
export interface Bound {
  readonly interval: Interval;
  /** The ends as written, for messages and for the printed card. */
  readonly low?: Quantity;
  readonly high?: Quantity;
  readonly form: 'at least' | 'at most' | 'above' | 'below' | 'range' | 'exactly';
  /** For `exactly Q +/- T`. */
  readonly exactly?: Quantity;
  readonly tolerance?: Quantity;
  readonly place: Place;
}

export interface Supply {
  readonly id: number;
  readonly name: string;
  readonly label: string;
  /** Node names; an item that is a node has its item's name. */
  readonly nodes: readonly { readonly name: string; readonly item?: Item; readonly place: Place }[];
  readonly sources: readonly { readonly node: number; readonly when?: Condition; readonly place: Place }[];
  readonly links: readonly SupplyLink[];
  readonly place: Place;
}

export interface SupplyLink {
  readonly from: number;
  readonly to: number;
  readonly both: boolean;
  readonly when?: Condition;
  readonly place: Place;
}

export type AdmonitionLevel = 'danger' | 'warning' | 'caution' | 'note';

export interface Hazard {
  readonly id: number;
  readonly name: string;
  readonly label: string;
  readonly condition: Condition;
  /** dBA */
  readonly noise?: Exact;
  /** How likely it is that somebody is killed or hurt, or something damaged. */
  readonly harm?: { readonly likelihood: 'will' | 'could'; readonly outcome: 'kill' | 'injure' | 'damage' };
  readonly level: AdmonitionLevel;
  readonly text: string;
  readonly protect?: Condition;
  readonly source?: string;
  readonly place: Place;
}

export interface Rule {
  readonly id: number;
  readonly name: string;
  readonly title: string;
  readonly trigger: 'before' | 'while' | 'at end' | 'at stop';
  /** For `before` and `while`. */
  readonly condition?: Condition;
  readonly require: Condition;
  readonly because: readonly string[];
  readonly sources: readonly string[];
  readonly place: Place;
}

export type Condition =
  | { readonly type: 'or' | 'and'; readonly terms: readonly Condition[]; readonly place: Place }
  | { readonly type: 'not'; readonly term: Condition; readonly place: Place }
  | {
      readonly type: 'state';
      readonly item: Item;
      readonly state: number;
      readonly lasting?: { readonly form: 'at least' | 'at most'; readonly duration: Seconds };
      readonly place: Place;
    }
  /** `any` is written out as an `or`, `every` as an `and`, of state terms; `quantified` keeps how it was said. */
  | {
      readonly type: 'quantified';
      readonly quantifier: 'any' | 'every';
      readonly kind: Kind;
      readonly state: number;
      readonly written: Condition;
      readonly place: Place;
    }
  | { readonly type: 'bound'; readonly gauge: Gauge; readonly bound: Bound; readonly place: Place }
  | { readonly type: 'limit'; readonly gauge: Gauge; readonly limit: Limit; readonly place: Place }
  | { readonly type: 'reaches'; readonly supply: Supply; readonly node: number; readonly place: Place }
  /** Something here has a finding of its own: it may hold or not, and nothing follows from it. */
  | { readonly type: 'open'; readonly place: Place };

export interface Variant {
  readonly name: string;
  /** The values in order, as written on the card: `1`, `2`, … or words. */
  readonly values: readonly string[];
  readonly numeric: boolean;
  readonly place: Place;
}

/** All parts must hold: each names the values of one variant. */
export interface Which {
  readonly parts: readonly { readonly variant: Variant; readonly values: readonly string[] }[];
  readonly place: Place;
}

export interface Equipment {
  readonly kinds: readonly Kind[];
  readonly items: readonly Item[];
  readonly gauges: readonly Gauge[];
  readonly supplies: readonly Supply[];
  readonly hazards: readonly Hazard[];
  readonly rules: readonly Rule[];
  readonly variants: readonly Variant[];
}

// ---------------------------------------------------------------- the card

export interface Role {
  readonly name: string;
  readonly label: string;
  readonly qualified?: string;
  readonly place: Place;
}

export interface Part {
  readonly text: Words;
  readonly number?: string;
  readonly quantity?: number;
  readonly batch: boolean;
  readonly expires: boolean;
}

export interface AssumedState {
  readonly item: Item;
  readonly state: number;
  readonly because?: string;
  readonly place: Place;
}

/** Who answers for the card, in the order in which they do. */
export const signOffSorts = ['prepared', 'checked', 'approved'] as const;

/** Those that the card names; what is absent is signed on paper. */
export type SignOffs = { readonly [Sort in (typeof signOffSorts)[number]]?: Words & { readonly date?: string } };

export interface Card {
  readonly name: string;
  readonly title: string;
  readonly equipment: Equipment;
  readonly number?: Words;
  readonly revision?: Words & { readonly date?: string };
  readonly signOffs: SignOffs;
  readonly purpose?: string;
  /** A language tag such as `en`; English where absent. */
  readonly language?: Words;
  readonly applies?: Which;
  readonly crew: readonly Role[];
  readonly tools: readonly (Words & { readonly calibrated?: true })[];
  readonly parts: readonly Part[];
  readonly materials: readonly Words[];
  readonly references: readonly Words[];
  readonly assumes: readonly AssumedState[];
  readonly leaves: readonly AssumedState[];
  readonly body: readonly (Stage | Statement)[];
  /** The place of its name. */
  readonly place: Place;
  /** From `card` to the closing brace. */
  readonly extent: Place;
}

export interface Stage {
  readonly type: 'stage';
  readonly label?: Label;
  readonly title: string;
  readonly whenStopped: boolean;
  readonly only?: Which;
  readonly body: readonly Statement[];
  readonly place: Place;
}

/** Where a `go to` leads: one object for the label and every jump to it. */
export interface Label {
  readonly name: string;
  readonly place: Place;
}

export type Statement =
  | Step
  | Admonition
  | If
  | Repeat
  | Together
  | Do
  | ForEach
  | Choose
  | Mend
  | Keep
  | Sign
  | Flow
  | Accept
  | Figure;

export interface Step {
  readonly type: 'step';
  readonly label?: Label;
  readonly texts: readonly Words[];
  readonly roles: readonly Role[];
  readonly takes?: TimeSpan & { readonly place: Place };
  readonly see: readonly Words[];
  /** Where in the approved data it comes from. */
  readonly sources?: readonly string[];
  readonly only?: Which;
  /** Looks once more where such a look has failed: what changes without a hand on it may have changed by then. */
  readonly anew?: boolean;
  readonly actions: readonly (Action | Sign | Accept)[];
  readonly place: Place;
  /** The head of the step, for a finding that is about all of it. */
  readonly head: Place;
}

export interface Admonition {
  readonly type: 'admonition';
  readonly level: AdmonitionLevel;
  readonly hazard?: Hazard;
  readonly texts: readonly Words[];
  readonly only?: Which;
  readonly source?: string;
  readonly place: Place;
}

export interface If {
  readonly type: 'if';
  readonly condition?: Condition;
  readonly question?: Words;
  readonly body: readonly Statement[];
  readonly otherwise?: readonly Statement[];
  /** The `else` part is an `if` of its own (`else if`). */
  readonly chained: boolean;
  /** From `if` to the end of the condition. */
  readonly head: Place;
  readonly place: Place;
}

export interface Repeat {
  readonly type: 'repeat';
  readonly times: number;
  readonly until?: { readonly condition?: Condition; readonly question?: Words };
  readonly body: readonly Statement[];
  readonly otherwise?: Flow;
  readonly head: Place;
  readonly place: Place;
}

export interface Together {
  readonly type: 'together';
  readonly lanes: readonly { readonly role?: Role; readonly body: readonly Statement[]; readonly place: Place }[];
  readonly place: Place;
}

/** A procedure or card with its body written out for these arguments. */
export interface Do {
  readonly type: 'do';
  readonly name: string;
  readonly title: string;
  readonly callee:
    | { readonly type: 'procedure' }
    | ({ readonly type: 'card'; readonly number?: string } & Pick<
        Card,
        'revision' | 'tools' | 'parts' | 'materials' | 'references' | 'assumes'
      >);
  /** What goes inside by the names of the parameters. */
  readonly arguments: readonly { readonly name: string; readonly thing: Item | Gauge }[];
  readonly body: readonly (Stage | Statement)[];
  readonly place: Place;
}

export interface ForEach {
  readonly type: 'for-each';
  readonly name: string;
  readonly items: readonly Item[];
  /** Instead of items: the value of each round. */
  readonly values?: readonly Quantity[];
  /** One body an item or value, in the same order. */
  readonly rounds: readonly (readonly Statement[])[];
  readonly place: Place;
}

/** What is done where a check or reading of the step before it fails: passed by, but for the jump from there. Where it comes back, its last step asks again. */
export interface Mend {
  readonly type: 'mend';
  readonly label: Label;
  readonly asked: Step;
  readonly only?: Which;
  readonly body: readonly Statement[];
  readonly place: Place;
}

export interface Choose {
  readonly type: 'choose';
  readonly ways: readonly { readonly text: Words; readonly body: readonly Statement[]; readonly place: Place }[];
  readonly place: Place;
}

export interface Keep {
  readonly type: 'keep';
  readonly condition: Condition;
  readonly otherwise?: Flow;
  readonly place: Place;
}

export interface Sign {
  readonly type: 'sign';
  readonly role?: Role;
  /** An inspection: whoever did the work may not sign. */
  readonly independent?: true;
  readonly text?: Words;
  readonly place: Place;
}

export type Flow =
  /** `target` is absent where the label is unknown: the path is then not followed. */
  | { readonly type: 'go'; readonly target?: Label; readonly place: Place }
  | { readonly type: 'stop'; readonly text: string; readonly place: Place }
  | { readonly type: 'finish'; readonly place: Place };

export interface Accept {
  readonly type: 'accept';
  readonly code: string;
  readonly because: string;
  readonly place: Place;
}

export interface Figure {
  readonly type: 'figure';
  readonly path: string;
  readonly caption: string;
  readonly place: Place;
}

// ---------------------------------------------------------------- actions

export type Action = Set | Check | Read | Bring | Run | Wait | Tighten | Record;

export interface Set {
  readonly type: 'set' | 'ensure';
  readonly changes: readonly Change[];
  readonly place: Place;
}

export interface Change {
  readonly item: Item;
  readonly state: number;
  readonly place: Place;
}

export interface Check {
  readonly type: 'check';
  readonly condition?: Condition;
  readonly question?: Words;
  readonly otherwise?: Flow;
  readonly place: Place;
}

/** `asked` is absent for a bare reading, and an `open` condition where the bound has a finding of its own. */
export interface Read {
  readonly type: 'read';
  readonly gauge: Gauge;
  readonly asked?: Condition;
  readonly otherwise?: Flow;
  readonly place: Place;
}

export interface Bring {
  readonly type: 'bring';
  readonly gauge: Gauge;
  readonly asked: Condition;
  readonly within?: Seconds;
  readonly otherwise?: Flow;
  readonly place: Place;
}

export interface Run {
  readonly type: 'run';
  readonly item: Item;
  readonly state: number;
  readonly length?: TimeSpan & { readonly place: Place };
  readonly until?: {
    readonly condition: Condition;
    readonly within?: Seconds;
    readonly otherwise?: Flow;
    readonly place: Place;
  };
  readonly watches: readonly Watch[];
  readonly place: Place;
}

export interface Watch {
  readonly type: 'watch';
  readonly gauge: Gauge;
  readonly form: 'reaches' | 'stays';
  readonly asked: Condition;
  readonly within?: Seconds;
  readonly otherwise?: Flow;
  readonly place: Place;
}

export interface Wait {
  readonly type: 'wait';
  readonly length?: TimeSpan & { readonly place: Place };
  readonly until?: { readonly condition: Condition; readonly within?: Seconds; readonly otherwise?: Flow };
  readonly place: Place;
}

export interface Tighten {
  readonly type: 'tighten';
  readonly what: Item | Words;
  /** Absent where it has a finding of its own. */
  readonly torque?: Bound;
  readonly pattern?: Words;
  readonly place: Place;
}

/** A value for each column; with rows, a table of them. */
export interface Record {
  readonly type: 'record';
  readonly columns: readonly RecordColumn[];
  readonly rows: readonly Words[];
  /** What is fitted, as the card lists it. */
  readonly part?: Part;
  readonly place: Place;
}

export interface RecordColumn {
  readonly text: Words;
  readonly unit?: Unit;
  /** What each value has to keep. */
  readonly bound?: Bound;
}
