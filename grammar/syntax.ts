/**
 * The syntax tree: what stands in the text, in the order in which it stands there, and nothing about what it means.
 * What a writer may not have typed yet is optional. A stretch that could not be understood is a `broken` node.
 */
import type { Span } from '../shared/text.ts';

export interface Name extends Span {
  readonly type: 'name';
  readonly text: string;
}

/** One or more strings in a row, joined with a space. `segments` are their parts after the escapes are read. */
export interface Text extends Span {
  readonly type: 'text';
  /** The joined text with its slots still written as `{name}` and `{{` read as `{`. */
  readonly value: string;
  readonly segments: readonly (TextWords | TextSlot)[];
  /** The span of each string with its quotes. */
  readonly strings: readonly Span[];
}

export interface TextWords extends Span {
  readonly type: 'words';
  readonly value: string;
}

/** `{}`, `{name}` or `{name.limit}` in a text. */
export interface TextSlot extends Span {
  readonly type: 'slot';
  readonly name?: Name;
  readonly limit?: Name;
}

/** A number as it is written: `28`, `-40`, `0.5`. Exactness is kept by keeping the text. */
export interface NumberNode extends Span {
  readonly type: 'number';
  readonly text: string;
}

/** A unit as it is written; whether it is one is for `shared/units.ts` to say. */
export interface UnitNode extends Span {
  readonly type: 'unit';
  readonly text: string;
}

export interface QuantityNode extends Span {
  readonly type: 'quantity';
  readonly number?: NumberNode;
  /** Left out in `27 to 29 V`, where the second quantity gives it. */
  readonly unit?: UnitNode;
  /** Instead of number and unit: the name of a `for each` over values. */
  readonly name?: Name;
}

/** Quantities of time in a row: `4 min 30 s`. */
export interface DurationNode extends Span {
  readonly type: 'duration';
  readonly parts: readonly QuantityNode[];
}

export type BoundNode =
  | (Span & {
      readonly type: 'bound';
      readonly form: 'at least' | 'at most' | 'above' | 'below';
      readonly quantity?: QuantityNode;
    })
  | (Span & {
      readonly type: 'bound';
      readonly form: 'range';
      readonly low: QuantityNode;
      readonly high?: QuantityNode;
    })
  | (Span & {
      readonly type: 'bound';
      readonly form: 'exactly';
      readonly quantity?: QuantityNode;
      readonly tolerance?: QuantityNode;
    });

/** `45 s`, `2 min to 5 min` or `at least 1 h`. */
export interface SpanNode extends Span {
  readonly type: 'span';
  readonly form: 'exact' | 'range' | 'at least';
  readonly low?: DurationNode;
  readonly high?: DurationNode;
}

export interface Broken extends Span {
  readonly type: 'broken';
}

// ---------------------------------------------------------------- conditions

export type Condition =
  | (Span & { readonly type: 'or' | 'and'; readonly terms: readonly Condition[] })
  | (Span & { readonly type: 'not'; readonly term: Condition })
  | (Span & { readonly type: 'group'; readonly inner: Condition })
  | StateTerm
  | (Span & { readonly type: 'bound-term'; readonly gauge: Name; readonly bound: BoundNode })
  | (Span & { readonly type: 'limit-term'; readonly gauge: Name; readonly limit?: Name })
  | (Span & { readonly type: 'reaches-term'; readonly supply: Name; readonly node?: Name })
  /** `any supply reaches NODE` */
  | (Span & { readonly type: 'any-reaches-term'; readonly node?: Name })
  | Broken;

export interface StateTerm extends Span {
  readonly type: 'state-term';
  readonly quantifier?: 'any' | 'every';
  /** An item, or with a quantifier a kind. */
  readonly subject: Name;
  readonly state?: Name;
  readonly lasting?: { readonly form: 'at least' | 'at most'; readonly duration?: DurationNode };
}

// ---------------------------------------------------------------- declarations

export interface File extends Span {
  readonly type: 'file';
  readonly declarations: readonly Declaration[];
}

export type Declaration =
  | Use
  | Kind
  | ItemDeclaration
  | Gauge
  | Supply
  | Hazard
  | Rule
  | Variant
  | Procedure
  | Card
  | Broken;

export interface Use extends Span {
  readonly type: 'use';
  readonly path?: Text;
}

export interface Kind extends Span {
  readonly type: 'kind';
  readonly name?: Name;
  readonly seen: boolean;
  readonly states: readonly KindState[];
}

export interface KindState extends Span {
  readonly type: 'kind-state';
  readonly name: Name;
  /** What a reader is shown for it. */
  readonly printed?: Text;
  readonly wording?: Text;
  /** Further sentences that say the same. */
  readonly others?: readonly Text[];
}

/** One `item` line; it may declare several items that share what follows the colon. */
export interface ItemDeclaration extends Span {
  readonly type: 'item';
  readonly names: readonly { readonly name: Name; readonly label?: Text }[];
  readonly kind?: Name;
  /** The label written after the kind. */
  readonly label?: Text;
  readonly parts: readonly ItemPart[];
}

export type ItemPart =
  | (Span & { readonly type: 'at'; readonly text?: Text })
  | (Span & { readonly type: 'normally'; readonly state?: Name; readonly verify: boolean })
  | (Span & { readonly type: 'may'; readonly state?: Name; readonly when?: Condition })
  | (Span & { readonly type: 'reduces'; readonly quantity?: QuantityNode })
  | (Span & { readonly type: 'needs'; readonly supply?: Name; readonly state?: Name })
  | (Span & { readonly type: 'duties'; readonly duties: readonly Duty[] })
  | Broken;

export interface Duty extends Span {
  readonly type: 'duty';
  readonly state?: Name;
  /** `at most 30 s` */
  readonly longest?: DurationNode;
  /** `at most 3 times` */
  readonly times?: NumberNode;
  readonly rest?: DurationNode;
  /** `in 1 h` */
  readonly window?: DurationNode;
  /** `rated "S3 25 %"`: what stands on the plate of the motor. */
  readonly plate?: Text;
}

export interface Gauge extends Span {
  readonly type: 'gauge';
  readonly name?: Name;
  readonly label?: Text;
  readonly unit?: UnitNode;
  readonly difference?: { readonly left: Name; readonly sign: '-' | '+'; readonly right?: Name };
  readonly at?: Text;
  readonly parts: readonly GaugePart[];
}

export type GaugePart = Reads | Limit | (Span & { readonly type: 'moved'; readonly by: readonly Name[] }) | Broken;

export interface Reads extends Span {
  readonly type: 'reads';
  readonly from?: NumberNode;
  readonly to?: NumberNode;
  readonly by?: NumberNode;
}

export interface Limit extends Span {
  readonly type: 'limit';
  readonly name?: Name;
  readonly bound?: BoundNode;
  readonly byGauge?: Name;
  readonly rows: readonly { readonly when: BoundNode; readonly bound?: BoundNode }[];
  /** Where in the approved data it comes from. */
  readonly source?: Text;
}

export interface Supply extends Span {
  readonly type: 'supply';
  readonly name?: Name;
  readonly label?: Text;
  readonly parts: readonly (Source | Link | Broken)[];
}

export interface Source extends Span {
  readonly type: 'source';
  readonly node?: Name;
  readonly when?: Condition;
}

export interface Link extends Span {
  readonly type: 'link';
  readonly from?: Name;
  readonly both: boolean;
  readonly to?: Name;
  readonly when?: Condition;
}

export type AdmonitionLevel = 'danger' | 'warning' | 'caution' | 'note';

export interface Hazard extends Span {
  readonly type: 'hazard';
  readonly name?: Name;
  readonly label?: Text;
  readonly condition?: Condition;
  readonly noise?: QuantityNode;
  readonly harm?: HarmNode;
  readonly level?: AdmonitionLevel;
  readonly text?: Text;
  readonly protect?: Condition;
  readonly source?: Text;
}

/** `could kill` */
export interface HarmNode extends Span {
  readonly type: 'harm';
  readonly likelihood: 'will' | 'could';
  readonly outcome?: 'kill' | 'injure' | 'damage';
}

export interface Rule extends Span {
  readonly type: 'rule';
  readonly name?: Name;
  readonly title?: Text;
  /** `for each NAME in KIND`: the rule is asked for each item of the kind by itself. */
  readonly each?: { readonly name?: Name; readonly kind?: Name };
  readonly trigger?: 'before' | 'while' | 'at end' | 'at stop';
  readonly condition?: Condition;
  readonly require?: Condition;
  readonly because: readonly Text[];
  readonly sources: readonly Text[];
}

export interface Variant extends Span {
  readonly type: 'variant';
  readonly name?: Name;
  readonly from?: NumberNode;
  readonly to?: NumberNode;
  readonly words: readonly Name[];
}

/** `unit 3 to 4, 7 and fit old` */
export interface Which extends Span {
  readonly type: 'which';
  readonly parts: readonly { readonly variant: Name; readonly values: readonly WhichValue[] }[];
}

export type WhichValue =
  | (Span & { readonly type: 'numbers'; readonly from: NumberNode; readonly to?: NumberNode })
  | Name;

export interface Procedure extends Span {
  readonly type: 'procedure';
  readonly name?: Name;
  readonly parameters: readonly { readonly name: Name; readonly kind?: Name }[];
  readonly title?: Text;
  readonly body?: Block;
}

export interface Card extends Span {
  readonly type: 'card';
  readonly name?: Name;
  readonly title?: Text;
  readonly fields: readonly Field[];
  readonly body: readonly (Stage | Statement)[];
}

export type Field =
  | (Span & { readonly type: 'number-field' | 'purpose' | 'language'; readonly text?: Text })
  | (Span & {
      readonly type: 'revision';
      readonly text?: Text /** As written: `2026-10-02`. */;
      readonly date?: Span & { readonly text: string };
    })
  | (Span & {
      readonly type: 'prepared' | 'checked' | 'approved';
      readonly by?: Text;
      readonly date?: Span & { readonly text: string };
    })
  | (Span & { readonly type: 'applies'; readonly which?: Which })
  | (Span & { readonly type: 'crew'; readonly members: readonly CrewMember[] })
  | (Span & {
      readonly type: 'tools' | 'materials' | 'references';
      readonly texts: readonly Text[];
      /** Those of `texts` whose number and due date are written down. */
      readonly calibrated?: readonly Text[];
    })
  | (Span & { readonly type: 'parts'; readonly parts: readonly Part[] })
  | (Span & { readonly type: 'assume' | 'leaves'; readonly states: readonly ItemState[]; readonly because?: Text });

/** What is fitted: `batch` and `expires` say that these are written down. */
export interface Part extends Span {
  readonly type: 'part';
  readonly text: Text;
  readonly number?: Text;
  readonly quantity?: NumberNode;
  readonly batch: boolean;
  readonly expires: boolean;
}

export interface CrewMember extends Span {
  readonly type: 'member';
  readonly name: Name;
  readonly label?: Text;
  readonly qualified?: Text;
}

export interface ItemState extends Span {
  readonly type: 'item-state';
  readonly item: Name;
  readonly state?: Name;
}

// ---------------------------------------------------------------- statements

export interface Stage extends Span {
  readonly type: 'stage';
  readonly name?: Name;
  readonly title?: Text;
  readonly whenStopped: boolean;
  readonly only?: Which;
  readonly body?: Block;
}

export interface Block extends Span {
  readonly type: 'block';
  readonly statements: readonly Statement[];
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
  | Keep
  | Sign
  | Flow
  | Accept
  | Figure
  | Broken;

export interface Step extends Span {
  readonly type: 'step';
  readonly label?: Name;
  /** The parts of the head in the order written. */
  readonly parts: readonly StepPart[];
  readonly actions: readonly (Action | Sign | Accept | Broken)[];
  /** The braces, where the actions stand in some. */
  readonly braces?: Span;
}

export type StepPart =
  | Text
  | (Span & { readonly type: 'by' | 'inspected'; readonly role?: Name })
  | (Span & { readonly type: 'takes'; readonly span?: SpanNode })
  | (Span & { readonly type: 'see' | 'from-source'; readonly text?: Text })
  | (Span & { readonly type: 'only'; readonly which?: Which });

export interface Admonition extends Span {
  readonly type: 'admonition';
  readonly level: AdmonitionLevel;
  readonly hazard?: Name;
  readonly text?: Text;
  readonly only?: Which;
  readonly source?: Text;
}

/** `question` is the quoted form, which may go either way. */
export interface If extends Span {
  readonly type: 'if';
  readonly condition?: Condition;
  readonly question?: Text;
  readonly body?: Block;
  readonly otherwise?: Block | If;
}

export interface Repeat extends Span {
  readonly type: 'repeat';
  readonly times?: NumberNode;
  /** `at most N times until …` as opposed to `N times`. */
  readonly until: boolean;
  readonly condition?: Condition;
  readonly question?: Text;
  readonly body?: Block;
  readonly otherwise?: Flow;
}

export interface Together extends Span {
  readonly type: 'together';
  readonly lanes: readonly (Span & { readonly type: 'lane'; readonly role?: Name; readonly body?: Block })[];
}

export interface Do extends Span {
  readonly type: 'do';
  readonly name?: Name;
  readonly arguments: readonly Name[];
}

export interface ForEach extends Span {
  readonly type: 'for-each';
  readonly name?: Name;
  /** One kind, or a list of items. */
  readonly in: readonly Name[];
  /** Instead of items: the value of each round. */
  readonly values?: readonly QuantityNode[];
  readonly body?: Block;
}

export interface Choose extends Span {
  readonly type: 'choose';
  readonly ways: readonly (Span & { readonly type: 'way'; readonly text?: Text; readonly body?: Block })[];
}

export interface Keep extends Span {
  readonly type: 'keep';
  readonly condition?: Condition;
  readonly otherwise?: Flow;
}

export interface Sign extends Span {
  readonly type: 'sign';
  readonly role?: Name;
  readonly independent: boolean;
  readonly text?: Text;
}

export type Flow =
  /** A label is the name of a step or stage, or the title of a stage with its quotes. */
  | (Span & { readonly type: 'go'; readonly label?: Name })
  | (Span & { readonly type: 'stop'; readonly text?: Text })
  | (Span & { readonly type: 'finish' });

export interface Accept extends Span {
  readonly type: 'accept';
  /** `safety.left-changed` as one name. */
  readonly code?: Name;
  readonly because?: Text;
  /** Who accepts it. */
  readonly by?: Text;
}

export interface Figure extends Span {
  readonly type: 'figure';
  readonly path?: Text;
  readonly caption?: Text;
}

// ---------------------------------------------------------------- actions

export type Action = Set | Check | Read | Bring | Run | Wait | Tighten | Record;

export interface Set extends Span {
  readonly type: 'set' | 'ensure';
  readonly states: readonly ItemState[];
}

/** `mend`: what is done where it fails, before it is asked again; `otherwise` is then for the second failure. So for the others that may fail. */
export interface Check extends Span {
  readonly type: 'check';
  readonly condition?: Condition;
  readonly question?: Text;
  readonly mend?: Block;
  readonly otherwise?: Flow;
}

export interface Read extends Span {
  readonly type: 'read';
  readonly gauge?: Name;
  readonly bound?: BoundNode;
  readonly limit?: Name;
  readonly mend?: Block;
  readonly otherwise?: Flow;
}

export interface Bring extends Span {
  readonly type: 'bring';
  readonly gauge?: Name;
  readonly bound?: BoundNode;
  readonly limit?: Name;
  readonly within?: DurationNode;
  readonly mend?: Block;
  readonly otherwise?: Flow;
}

export interface Run extends Span {
  readonly type: 'run';
  readonly item?: Name;
  readonly state?: Name;
  readonly length?: SpanNode;
  readonly until?: Condition;
  readonly within?: DurationNode;
  readonly otherwise?: Flow;
  readonly watches: readonly Watch[];
}

export interface Watch extends Span {
  readonly type: 'watch';
  readonly gauge?: Name;
  readonly form?: 'reaches' | 'stays';
  readonly bound?: BoundNode;
  readonly limit?: Name;
  readonly within?: DurationNode;
  readonly otherwise?: Flow;
}

export interface Wait extends Span {
  readonly type: 'wait';
  readonly length?: SpanNode;
  readonly until?: Condition;
  readonly within?: DurationNode;
  readonly mend?: Block;
  readonly otherwise?: Flow;
}

export interface Tighten extends Span {
  readonly type: 'tighten';
  /** What is tightened: an item, or a text. */
  readonly item?: Name;
  readonly text?: Text;
  readonly torque?: BoundNode;
  readonly pattern?: Text;
}

/** One value, or a table of them: a column for each of `text` and `others`, a row for each of `at`. */
export interface Record extends Span, RecordColumn {
  readonly type: 'record';
  /** `record part`: what `text` names is fitted. */
  readonly part?: true;
  readonly others?: readonly RecordColumn[];
  readonly at?: readonly Text[];
}

export interface RecordColumn {
  readonly text?: Text;
  readonly unit?: UnitNode;
  readonly bound?: BoundNode;
}

// ---------------------------------------------------------------- results

export interface Comment extends Span {
  readonly text: string;
}

/** A slip of the pen, already in a writer's words. */
export interface SyntaxProblem {
  /** `syntax.NAME` */
  readonly code: string;
  readonly span: Span;
  readonly message: string;
  /** Where the thing that is not finished was begun. */
  readonly opened?: { readonly span: Span; readonly text: string };
  readonly fix?: { readonly title: string; readonly edits: readonly (Span & { readonly newText: string })[] };
}

export interface Parsed {
  readonly text: string;
  readonly file: File;
  readonly comments: readonly Comment[];
  readonly problems: readonly SyntaxProblem[];
}

export type SyntaxNode = { readonly type: string } & Span;
