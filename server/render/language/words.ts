/** The words that a card has whatever it is about: headings, signal words, and the small sentences that tie the writer's own words together. */
import type { AdmonitionLevel, SignOffs } from '../../../shared/card.ts';
import type { JobWords } from '../../../shared/job.ts';
import type { ChangeWords } from './change-words.ts';
import type { KindTable, Noun, StateOf } from './kinds.ts';

type Text = string;

export interface FixedWords {
  /** The language of these words, as a language tag. */
  readonly tag: string;
  readonly signal: Readonly<Record<AdmonitionLevel, Text>>;
  readonly heading: Readonly<
    Record<
      | 'beforeYouStart'
      | 'forTheWholeCard'
      | 'steps'
      | 'whenACheckFails'
      | 'ifYouStop'
      | 'atTheEnd'
      | 'accepted'
      | 'sources'
      | 'revisions'
      | 'record'
      | 'findings'
      | 'overview'
      | 'way',
      Text
    >
  >;
  readonly front: FrontWords;
  readonly step: StepWords;
  readonly block: BlockWords;
  readonly back: BackWords;
  readonly change: ChangeWords;
  readonly picture: PictureWords;
  readonly workCopy: JobWords;
  readonly grammar: GrammarWords;
  readonly kinds: KindTable | 'as shipped';
  /** Puts the blanks that the language has at its signs of punctuation. Where absent, it has none. */
  readonly typeset?: (text: string) => string;
}

export interface FrontWords {
  readonly number: Text;
  readonly release: Text;
  /** Of which sources a release was made, and by which version of this tool. */
  readonly madeFrom: (digits: string, version: string) => Text;
  readonly signOff: Readonly<Record<keyof SignOffs, Text>>;
  readonly revision: Text;
  readonly date: Text;
  readonly appliesTo: Text;
  readonly allMachines: Text;
  readonly purpose: Text;
  readonly crew: Text;
  readonly role: Text;
  readonly qualification: Text;
  readonly name: Text;
  readonly time: Text;
  /** `most` is absent where it is not known. */
  readonly timeOf: (least: string, most: string | undefined) => Text;
  readonly tools: Text;
  readonly materials: Text;
  readonly parts: Text;
  readonly references: Text;
  /** Stands before the cards that this card has done. */
  readonly does: Text;
  readonly whenBegun: (states: string) => Text;
  readonly none: Text;
  readonly standingCaution: Text;
  readonly relies: Text;
  readonly nothingRelied: Text;
  /** What the head of the card lists. */
  readonly atHand: Text;
  readonly why: Text;
  /** What asks for it, by its name. */
  readonly whyFrom: Readonly<Record<'rule' | 'hazard' | 'supply', (name: string) => Text>>;
  readonly rested: (label: string, rest: string) => Text;
  readonly draft: Text;
  readonly draftMeaning: Text;
  readonly checksLowered: (checks: string) => Text;
  readonly digest: (digits: string) => Text;
  readonly openWarnings: (count: number) => Text;
  /** The parts of "Page 2 of 5", so that a style sheet can put counters for the numbers. */
  readonly page: (page: string, pages: string) => readonly string[];
}

/** What a run leaves in which state. */
export interface Left {
  readonly label: string;
  readonly state: string;
}

export interface StepWords {
  readonly step: (number: number) => Text;
  readonly steps: (first: number, last: number) => Text;
  readonly only: (machines: string) => Text;
  readonly takes: (time: string) => Text;
  readonly see: (reference: string) => Text;
  readonly check: (condition: string) => Text;
  readonly checkQuestion: (question: string) => Text;
  readonly ensure: (condition: string) => Text;
  readonly ifItIsNot: Text;
  readonly ifNot: Text;
  /** Of what was to come about in a time. */
  readonly ifNotReached: Text;
  /** Of what is waited for, however long that takes. */
  readonly ifItNeverIs: Text;
  /** Of what stands on a checklist and is not so. */
  readonly putRight: Text;
  readonly read: (gauge: string) => Text;
  /** A gauge that is worked out from two others. */
  readonly workOut: (gauge: string, left: string, sign: '-' | '+', right: string) => Text;
  readonly bring: (gauge: string, bound: string, within: string | undefined) => Text;
  /** Its limit has rows, which follow. */
  readonly bringByRows: (gauge: string, within: string | undefined) => Text;
  readonly mustBe: (bound: string) => Text;
  readonly dependsOn: (gauge: string) => Text;
  readonly when: (condition: string) => Text;
  /** What runs is left in its state for that long. */
  readonly runFor: (command: string, left: Left, time: string) => Text;
  readonly runUntil: (command: string, left: Left, condition: string, within: string | undefined) => Text;
  /** Stands before what is watched during a run. */
  readonly meanwhile: Text;
  readonly noLongerThan: (time: string) => Text;
  readonly restAfter: (time: string) => Text;
  readonly timesThenRest: (times: number, time: string) => Text;
  readonly timesInWindow: (times: number, time: string) => Text;
  /** The bound of a watch whose limit has rows, which follow. */
  readonly insideTheLimit: Text;
  readonly watchReaches: (gauge: string, bound: string, within: string | undefined) => Text;
  readonly watchStays: (gauge: string, bound: string) => Text;
  readonly wait: (time: string) => Text;
  readonly waitUntil: (condition: string, within: string | undefined) => Text;
  readonly atLeastTime: (time: string) => Text;
  readonly atMostTime: (time: string) => Text;
  readonly record: (text: string) => Text;
  /** What stands in the columns of a table to fill in. */
  readonly recordTable: (texts: string) => Text;
  /** `isRange`: the torque is two numbers. */
  readonly tighten: (what: string, torque: string, isRange: boolean, pattern: string | undefined) => Text;
  readonly toolNumber: Text;
  readonly dueDate: Text;
  readonly recordPart: (part: string) => Text;
  readonly partNumber: Text;
  readonly batch: Text;
  readonly expires: Text;
  readonly goTo: (step: number, stage: string | undefined) => Text;
  /** The label stands where no step follows. */
  readonly goToEnd: (stage: string | undefined) => Text;
  readonly goToUnknown: Text;
  readonly stop: Text;
  readonly doIfYouStop: Text;
  /** `steps`: those of the last page. */
  readonly doStopSteps: (steps: string) => Text;
  /** What comes after that, a sentence of the writer. */
  readonly thenDo: (sentence: string) => Text;
  readonly finish: Text;
  readonly sign: Text;
  readonly inspectedBy: Text;
  readonly timeOfDay: Text;
  readonly yes: Text;
  readonly no: Text;
  readonly reading: Text;
  readonly value: Text;
  readonly finding: Text;
}

export interface BlockWords {
  readonly if: (condition: string) => Text;
  readonly otherwise: Text;
  readonly otherwiseIf: (condition: string) => Text;
  readonly skip: (steps: string) => Text;
  /** Over what is done only where a check of this step fails. */
  readonly mend: (step: number) => Text;
  readonly repeatTimes: (steps: string, times: number) => Text;
  /** A question as a condition, which holds where it is answered so. */
  readonly answeredYes: (question: string) => Text;
  readonly repeatUntil: (steps: string, condition: string, times: number) => Text;
  /** What stands for the steps of a repeat that has none. */
  readonly theSteps: Text;
  readonly notSoAfter: (times: number) => Text;
  /** Stands before the boxes of a step that is done several times. */
  readonly done: Text;
  readonly timesDone: (times: number) => Text;
  readonly together: Text;
  readonly choose: Text;
  readonly forEach: Text;
  readonly forEachValue: Text;
  readonly item: Text;
  readonly value: Text;
  readonly whatToDo: Text;
  readonly keep: (condition: string) => Text;
  readonly do: (title: string, number: string | undefined) => Text;
}

export type BackWords = Readonly<
  Record<
    | 'where'
    | 'check'
    | 'ifItFails'
    | 'because'
    | 'deviation'
    | 'acceptedBy'
    | 'source'
    | 'comesFromIt'
    | 'noSource'
    | 'putBack'
    | 'left'
    | 'alteredAtStops'
    | 'wholeCard'
    | 'workOrder'
    | 'machine'
    | 'station'
    | 'workDone'
    | 'dateCompleted'
    | 'doneBy'
    | 'approvedBy'
    | 'certificate'
    | 'remarks'
    | 'change'
    | 'noChanges'
    | 'signature'
    | 'aviationMeaning'
    | 'level'
    | 'error'
    | 'warning',
    Text
  >
> & { readonly inFile: (file: string) => Text; readonly changesSince: (revision: string) => Text };

/** Words in pictures, and what is said to whoever does not see them. */
export interface PictureWords {
  readonly scale: (gauge: string, from: string, to: string, bound: string) => Text;
  readonly duty: (item: string, duties: string) => Text;
  readonly run: (longest: string | undefined) => Text;
  readonly runs: (times: number) => Text;
  readonly rest: (time: string) => Text;
  readonly source: (node: string, when: string | undefined) => Text;
  readonly link: (from: string, to: string, when: string | undefined) => Text;
  readonly flow: Text;
  readonly way: (from: string, when: string | undefined, to: string) => Text;
  readonly rounds: (times: number) => Text;
  readonly afterRounds: (times: number) => Text;
  readonly together: Text;
  readonly allDone: Text;
  readonly stop: Text;
  readonly finish: Text;
}

/** How a language puts labels, states and bounds together. */
export interface GrammarWords {
  /** `a, b and c`, shortened where the language lets the labels share words. */
  readonly list: (labels: readonly string[]) => Text;
  readonly and: (parts: readonly string[]) => Text;
  readonly or: (parts: readonly string[]) => Text;
  /** The order for a state whose kind gives no wording. */
  readonly setTo: (labels: string, state: string) => Text;
  /** Labels as what an order is done to. */
  readonly object: (labels: string) => Text;
  readonly is: (label: string, state: string) => Text;
  readonly isNot: (label: string, state: string) => Text;
  /** Several items that are in one state. */
  readonly areAll: (labels: string, state: string) => Text;
  /** Several gauges with one bound. */
  readonly readings: (gauges: readonly string[], bound: string) => Text;
  readonly lasting: (label: string, state: string, duration: string) => Text;
  readonly notLasting: (label: string, state: string, duration: string) => Text;
  readonly anyIs: (kind: Noun, state: StateOf) => Text;
  readonly everyIs: (kind: Noun, state: StateOf) => Text;
  readonly noneIs: (kind: Noun, state: StateOf) => Text;
  readonly notEveryIs: (kind: Noun, state: StateOf) => Text;
  readonly reading: (gauge: string, bound: string) => Text;
  readonly notReading: (gauge: string, bound: string) => Text;
  /** A reading after "if" or "until", where a verb may have to come last. */
  readonly clause: (gauge: string, bound: string) => Text;
  /** What is no reading, after "until". */
  readonly until: (condition: string) => Text;
  readonly reaches: (supply: string, node: string) => Text;
  readonly notReaches: (supply: string, node: string) => Text;
  readonly atLeast: (quantity: string) => Text;
  readonly atMost: (quantity: string) => Text;
  readonly above: (quantity: string) => Text;
  readonly below: (quantity: string) => Text;
  readonly range: (low: string, high: string) => Text;
  readonly exactly: (quantity: string, tolerance: string | undefined) => Text;
  readonly upTo: (least: string, most: string) => Text;
  readonly about: (quantity: string) => Text;
  readonly decimalPoint: Text;
  /** Stands for a condition that a draft does not say yet. */
  readonly open: Text;
  /** A condition that stands inside another of a different kind. */
  readonly group: (condition: string) => Text;
}
