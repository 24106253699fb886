/**
 * What the work copy of a card is told: a small program that walks one job through the card, with the words to show. The renderer
 * writes it into the exported file as JSON; the script in that file reads it. Times are whole milliseconds.
 */

export interface Job {
  /** Of one revision of one card, as it is written: what is kept on a device for another does not fit. */
  readonly id: string;
  readonly number: string;
  readonly revision: string;
  readonly title: string;
  /** A language tag, for dates and numbers. */
  readonly language: string;
  readonly roles: readonly string[];
  /** The first line in the head of each page. */
  readonly running: string;
  /** What is asked before the first step and stands in the head of each page. */
  readonly head: readonly string[];
  readonly record: JobRecord;
  /** In what machines differ, as far as the card goes by it. */
  readonly variants: readonly JobVariant[];
  /** What some parts of the card are only for. Their elements have the index in `data-only`. */
  readonly onlys: readonly (readonly JobOnly[])[];
  readonly moves: readonly Move[];
  readonly start: MoveIndex;
  /** Where whoever stops goes on. */
  readonly stop: MoveIndex;
  readonly keeps: readonly Keep[];
  readonly duties: readonly DutyItem[];
  /** Those that this card sets, or looks at. */
  readonly items: readonly JobItem[];
  /** Those that this card reads. */
  readonly gauges: readonly JobGauge[];
  /** Sets of gauges (indices in `gauges`) whose readings end together. */
  readonly ends: readonly (readonly number[])[];
  readonly words: JobWords;
}

export interface JobItem {
  /** For each state: `The pump (cellar) is stopped.` */
  readonly states: readonly string[];
  /** It may change by itself. */
  readonly drifts?: true;
}

/** An index in `Job.items`, and one of its states. */
export interface JobItemState {
  readonly item: number;
  readonly state: number;
}

export interface JobGauge {
  readonly label: string;
  /** The units in which it may be entered, its own first. */
  readonly units: readonly JobUnit[];
  /** The gauges from which it is worked out (indices in `Job.gauges`), each added or taken away. */
  readonly workedOut?: readonly { readonly gauge: number; readonly sign: 1 | -1 }[];
}

/** Exact numbers as text (`24.5`, `5/9`). In the base unit of its measure a value is `value * factor + offset`. */
export interface JobUnit {
  readonly printed: string;
  readonly factor: string;
  readonly offset?: string;
  /** The ends of the gauge's scale in this unit. */
  readonly low?: string;
  readonly high?: string;
}

/** What can be told from readings alone. */
export type JobCondition =
  | { readonly type: 'and' | 'or'; readonly terms: readonly JobCondition[] }
  | { readonly type: 'not'; readonly term: JobCondition }
  /** `ends` in base units. */
  | { readonly type: 'reading'; readonly gauge: number; readonly ends: ReadingEnds }
  /** Nobody but a reader can tell. */
  | { readonly type: 'open' };

/** Both as printed. */
export interface JobVariant {
  readonly label: string;
  readonly values: readonly string[];
}

/** One of these values (indices) of a variant (an index in `Job.variants`). */
export interface JobOnly {
  readonly variant: number;
  readonly values: readonly number[];
}

/** An index in `Job.moves`. What is shown for a move stands in the element with this number in `data-move`. */
export type MoveIndex = number;

export type Move =
  | Unit
  | {
      readonly type: 'ask';
      readonly text: string;
      /** In a lane, whose lane it is; else empty. */
      readonly who: string;
      readonly yes: MoveIndex;
      readonly no: MoveIndex;
      readonly condition?: JobCondition;
    }
  | {
      readonly type: 'choose';
      readonly text: string;
      readonly who: string;
      readonly ways: readonly { readonly text: string; readonly to: MoveIndex }[];
    }
  /** Each arrival begins a round; after the last one it goes on to `after`. Its rounds are the moves from here up to `end`, which is not among them. */
  | {
      readonly type: 'loop';
      readonly times: number;
      readonly body: MoveIndex;
      readonly end: MoveIndex;
      readonly after: MoveIndex;
      /** An index in `Job.ends`: the gauges whose readings a new round ends. */
      readonly ends?: number;
    }
  | { readonly type: 'fork'; readonly lanes: readonly MoveIndex[] }
  /** Goes on when all lanes of its fork are here. */
  | { readonly type: 'join'; readonly fork: MoveIndex; readonly next: MoveIndex }
  /** `ends` (an index in `Job.ends`): the gauges whose readings a jump back ends. */
  | { readonly type: 'pass'; readonly next: MoveIndex; readonly ends?: number }
  /** Goes on to `yes` for the machines that `only` (an index in `Job.onlys`) names. */
  | { readonly type: 'only'; readonly only: number; readonly yes: MoveIndex; readonly no: MoveIndex }
  /** Ends all lanes. */
  | { readonly type: 'stop'; readonly text: string; readonly next: MoveIndex }
  | { readonly type: 'end'; readonly stopped: boolean };

/** Something that is done and ticked: a step, or a signature that stands by itself. */
export interface Unit {
  readonly type: 'unit';
  /** `Step 12`, or what is signed. */
  readonly name: string;
  /** Absent for a signature that stands by itself. */
  readonly step?: number;
  readonly who: string;
  /** The same as indices in `Job.roles`. */
  readonly by: readonly number[];
  readonly lines: readonly JobLine[];
  readonly next: MoveIndex;
  /** Indices in `Job.keeps`: what must stay so while this is done. */
  readonly keeps: readonly number[];
  /** An index in `Job.ends`: the gauges whose readings from before no longer count in it. */
  readonly ends?: number;
}

export interface Keep {
  readonly text: string;
  readonly condition?: JobCondition;
  readonly exit: Exit;
}

/** Where to go when something is not as it must be, and the sentence that says so. */
export interface Exit {
  /** Absent where it is put right on the spot. */
  readonly to?: MoveIndex;
  readonly text: string;
  /** A rule or a hazard of the card relies on it: nobody goes on past it. */
  readonly firm?: true;
}

/**
 * `ends` (an index in `Job.ends`): the gauges whose readings from before no longer count once this is done.
 * `ifSet`: it is only asked where the work has set this item (an index in `Job.items`).
 * `brings`: the states in which items then are; of a check, once it is so; of a run, while it goes on.
 */
export type JobLine = LineContent & {
  readonly ends?: number;
  readonly brings?: readonly JobItemState[];
  readonly ifSet?: number;
};

type LineContent =
  /** `uses` and `rests`: the items with duties (indices in `Job.duties`) that begin and end a run when this is done. */
  | {
      readonly type: 'do';
      readonly text: string;
      readonly uses?: readonly number[];
      readonly rests?: readonly number[];
    }
  /** A question is answered with yes or no; of anything else it is said whether it is as it must be. */
  | {
      readonly type: 'check';
      readonly text: string;
      readonly question?: true;
      readonly exit: Exit;
      readonly condition?: JobCondition;
    }
  | Reading
  | RunLine
  | {
      readonly type: 'wait';
      readonly text: string;
      readonly least?: number;
      readonly most?: number;
      readonly exit?: Exit;
      /** What is waited for. */
      readonly condition?: JobCondition;
    }
  | { readonly type: 'record'; readonly text: string; readonly unit?: string }
  | FieldsLine
  /** `independent`: an inspection, signed by somebody else than whoever did the work. */
  | { readonly type: 'sign'; readonly text: string; readonly independent?: true };

/** Several values that are written down together. */
export interface FieldsLine {
  readonly type: 'fields';
  readonly text: string;
  readonly fields: readonly JobField[];
}

export interface JobField {
  readonly label: string;
  /** `tool`: the number of a tool. With a `date` behind it, when that one is due; else one of those is used. */
  readonly kind: 'text' | 'number' | 'date' | 'tool';
  readonly unit?: string;
  readonly limit?: { readonly text: string; readonly ends: ReadingEnds };
  readonly optional?: true;
}

export interface Reading {
  readonly type: 'reading';
  readonly text: string;
  /** An index in `Job.gauges`. */
  readonly gauge: number;
  /** The units in which it may be entered, the gauge's own first. */
  readonly units: readonly string[];
  /** Empty for a reading without a limit; several where the limit depends on another gauge. */
  readonly limits: readonly ReadingLimit[];
  /** For what is brought about: in how long. */
  readonly within?: number;
  readonly exit?: Exit;
}

export interface ReadingLimit {
  readonly text: string;
  /** When this limit counts, in words and as a condition; absent where it always does. */
  readonly when?: string;
  readonly condition?: JobCondition;
  /** One for each of the reading's units, in the same order, as printed on the card; undefined where the card prints none in that unit. */
  readonly ends: readonly (ReadingEnds | null)[];
}

/** Decimal numbers as text, so that they are compared exactly. */
export interface ReadingEnds {
  readonly low?: string;
  readonly high?: string;
  readonly lowOpen?: true;
  readonly highOpen?: true;
}

export interface RunLine {
  readonly type: 'run';
  readonly text: string;
  /** Index in `Job.duties`; absent for an item without a duty. */
  readonly duty?: number;
  /** How long it is to last. */
  readonly least?: number;
  readonly most?: number;
  readonly watches: readonly WatchLine[];
  /** For a run until something is so: what. */
  readonly condition?: JobCondition;
  readonly exit?: Exit;
}

export interface WatchLine {
  readonly text: string;
  readonly condition?: JobCondition;
  /** It must be so all the time. */
  readonly stays?: true;
  readonly within?: number;
  readonly exit: Exit;
}

/** An item with limits on how long and how often it may run. */
export interface DutyItem {
  readonly label: string;
  readonly duties: readonly JobDuty[];
}

export type JobDuty =
  | { readonly type: 'longest'; readonly limit: number; readonly rest?: number }
  | { readonly type: 'times-then-rest'; readonly times: number; readonly rest: number }
  | { readonly type: 'times-in-window'; readonly times: number; readonly window: number };

/** What is filled in at the end. */
export interface JobRecord {
  readonly title: string;
  readonly meaning: string;
  readonly fields: readonly RecordField[];
}

export interface RecordField {
  readonly text: string;
  /** `work` begins as the title of the card; `date` is known; `hand` is for a pen. */
  readonly sort: 'work' | 'name' | 'text' | 'date' | 'hand';
}

/** The words of the work copy in the language of the card. `{…}` is filled in. */
export type JobWords = Readonly<Record<JobWord, string>>;

export type JobWord =
  | 'open'
  | 'goOn'
  | 'asPrinted'
  | 'done'
  | 'doneAt'
  | 'undo'
  | 'undone'
  | 'stopNow'
  | 'stopped'
  | 'leaveOut'
  | 'leftOut'
  | 'yes'
  | 'no'
  | 'passed'
  | 'failed'
  | 'enter'
  | 'reading'
  | 'unit'
  | 'value'
  | 'notANumber'
  | 'understood'
  | 'whichNumber'
  | 'scaleEnds'
  | 'scaleBegins'
  | 'nameNeeded'
  | 'choiceNeeded'
  | 'reasonForStop'
  | 'from'
  | 'rowFrom'
  | 'answeredFrom'
  | 'workedOutFrom'
  | 'inside'
  | 'outside'
  | 'overDate'
  | 'otherTool'
  | 'whichLimit'
  | 'notSo'
  | 'goThere'
  | 'goOnAnyway'
  | 'answerFirst'
  | 'isFirm'
  | 'moreReason'
  | 'secondName'
  | 'secondIsOther'
  | 'wentOn'
  | 'wentOnUnchecked'
  | 'wentOnOver'
  | 'begin'
  | 'end'
  | 'running'
  | 'release'
  | 'tooLong'
  | 'tooLongBy'
  | 'itemTooLongBy'
  | 'inState'
  | 'thisIsDone'
  | 'ranOut'
  | 'tooLate'
  | 'ranFor'
  | 'restLeft'
  | 'restOver'
  | 'shut'
  | 'beginAnyway'
  | 'wait'
  | 'waitLeft'
  | 'waitOver'
  | 'waited'
  | 'endEarly'
  | 'timeLeft'
  | 'timeOver'
  | 'didReach'
  | 'didNotReach'
  | 'sign'
  | 'name'
  | 'signedBy'
  | 'inspector'
  | 'workBy'
  | 'inspectedBy'
  | 'sameName'
  | 'outOfOrder'
  | 'missingLines'
  | 'reason'
  | 'record'
  | 'cancel'
  | 'choose'
  | 'round'
  | 'now'
  | 'finish'
  | 'finished'
  | 'finishMeaning'
  | 'headMeaning'
  | 'machineType'
  | 'headMissing'
  | 'onePerson'
  | 'onePersonDoes'
  | 'headDone'
  | 'save'
  | 'load'
  | 'loaded'
  | 'altered'
  | 'cannotCompare'
  | 'loadForeign'
  | 'loadRevision'
  | 'loadChangedCard'
  | 'doubtChanged'
  | 'doubtOtherCopy'
  | 'doubtUnchecked'
  | 'loadOver'
  | 'loadInPlace'
  | 'loadAnyway'
  | 'readIn'
  | 'takeUpBefore'
  | 'nothingNew'
  | 'wasReadIn'
  | 'conflicts'
  | 'conflictsMeaning'
  | 'entriesHere'
  | 'entriesReadIn'
  | 'thisCounts'
  | 'whoDecides'
  | 'settled'
  | 'settleFirst'
  | 'recordMade'
  | 'recordDigest'
  | 'loadBroken'
  | 'print'
  | 'startAgain'
  | 'startAgainMeaning'
  | 'recordTitle'
  | 'time'
  | 'where'
  | 'what'
  | 'storageFailed'
  | 'otherTab'
  | 'keep'
  | 'keepBroken'
  | 'labelled'
  | 'clockBack'
  | 'handOver'
  | 'handsOver'
  | 'takesOver'
  | 'mustKnow'
  | 'otherTakesOver'
  | 'notHere'
  | 'handedOver'
  | 'handOverPage'
  | 'comesNext'
  | 'isOpen'
  | 'nothingOpen'
  | 'stillRuns'
  | 'stateNow'
  | 'noStateYet'
  | 'since'
  | 'mayHaveChanged'
  | 'signature';
