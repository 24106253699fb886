/** How a card says what is otherwise in it than in an older revision. */
import type { AdmonitionLevel } from '../../../shared/card.ts';

type Text = string;

/** What may be new, gone or elsewhere, and has no name of its own. */
export type Thing = 'branch' | 'way' | 'otherwise' | 'repeat' | 'keep' | 'wayOn' | 'signature' | 'picture';

/** Which of two bounds asks more; `another` where neither lies inside the other. */
export type LimitChange = 'tighter' | 'looser' | 'another';

/** What is now, and what was; absent where nothing is, or was. */
type Replaced = (subject: string, now: string | undefined, was: string | undefined) => Text;

export interface ChangeWords {
  readonly quoted: (text: string) => Text;
  readonly step: (number: number) => Text;
  readonly stepAdded: (number: number, says: string) => Text;
  readonly stepGone: (number: number, says: string) => Text;
  readonly stepMoved: (number: number, before: number, says: string) => Text;
  readonly stage: (title: string) => Text;
  readonly whenStopped: (title: string) => Text;
  readonly card: (title: string) => Text;
  readonly admonition: Readonly<Record<AdmonitionLevel, Text>>;
  readonly thing: Readonly<Record<Thing, Text>>;
  readonly if: (condition: string) => Text;
  readonly until: (condition: string) => Text;
  /** `steps`: those that it holds. */
  readonly added: (thing: string, steps: string | undefined, says: string | undefined) => Text;
  readonly gone: (thing: string, says: string | undefined) => Text;
  /** To before a step; to the end where that is absent. */
  readonly moved: (thing: string, step: number | undefined, says: string) => Text;
  readonly elsewhere: (thing: string) => Text;
  readonly standsElsewhere: (says: string) => Text;
  readonly renamed: (thing: string, now: string) => Text;
  readonly otherLevel: (now: AdmonitionLevel, was: AdmonitionLevel, says: string) => Text;
  readonly reworded: (thing: string, says: string) => Text;
  readonly asksElse: (says: string) => Text;
  readonly otherTimes: (now: number, was: number, steps: string) => Text;
  /** A sentence, and what it was. */
  readonly was: (says: string, before: string) => Text;
  readonly roles: Replaced;
  readonly takes: Replaced;
  /** The time within which something must come about. */
  readonly within: Replaced;
  readonly only: Replaced;
  readonly see: Replaced;
  readonly source: Replaced;
  readonly lasts: (step: string, now: string, was: string) => Text;
  readonly ifItFails: (step: string, now: string, was: string) => Text;
  readonly noLonger: (step: string, says: string) => Text;
  readonly also: (step: string, says: string) => Text;
  readonly inStep: (step: string, says: string) => Text;
  /** `name`: that of a limit in the equipment. */
  readonly limitOf: (gauge: string, name: string | undefined) => Text;
  readonly limit: Readonly<Record<LimitChange, (subject: string, now: string, was: string) => Text>>;
  readonly item: (label: string, now: string | undefined, was: string | undefined) => Text;
  readonly normally: (state: string) => Text;
  readonly rule: (title: string) => Text;
  readonly hazard: (label: string) => Text;
  /** Of a rule or a hazard. */
  readonly another: (thing: string, now: string, was: string) => Text;
  readonly trigger: Readonly<Record<'before' | 'while' | 'at end' | 'at stop', (condition: string) => Text>>;
  readonly protectedBy: (condition: string) => Text;
  readonly relies: (numbers: string, count: number) => Text;
  readonly stop: (text: string | undefined) => Text;
  readonly finish: Text;
  readonly goOn: Text;
  readonly goTo: (name: string) => Text;
  readonly title: Text;
  readonly number: Text;
  readonly assumed: Text;
  readonly left: Text;
  readonly calibrated: Text;
  readonly listedNew: (texts: string, count: number) => Text;
  readonly listedGone: (texts: string, count: number) => Text;
}
