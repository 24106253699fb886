import type { Place } from './text.ts';

export type Level = 'error' | 'warning' | 'hint';

/** One place on the path that shows a finding, with what happens there. */
export interface PathPlace {
  readonly place: Place;
  readonly text: string;
}

export interface TextEdit {
  readonly place: Place;
  readonly newText: string;
}

/** A mend that an editor can apply as it stands. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** It says what is done already, so that errors which come to light with it were there before. */
  readonly reveals?: boolean;
}

/** What `explain` tells about a finding: the page of its rule, where that is shipped, or of its code. */
export function pageOf({ code, rule, rulebook }: Pick<Finding, 'code' | 'rule' | 'rulebook'>): string {
  return rulebook === undefined ? code : `${rulebook}/${rule}`;
}

export interface Finding {
  readonly code: string;
  readonly level: Level;
  readonly place: Place;
  readonly message: string;
  /** The message as it is where it is so in all calls; absent where it names none. */
  readonly inEveryCall?: string;
  /** The name of the broken rule, for `safety.rule`. */
  readonly rule?: string;
  /** The shipped rulebook that the rule stands in, as a `use` names it. */
  readonly rulebook?: string;
  /** The published source of the requirement, where there is one. */
  readonly source?: string;
  /** The shortest path that shows the finding, from the start of the card; empty where the place says it all. */
  readonly path: readonly PathPlace[];
  readonly fixes: readonly Fix[];
  /** The text here does nothing; an editor fades it. */
  readonly unnecessary?: boolean;
}

/**
 * Two small texts, each complete after what is `given` for both. In `bad`, marks in comments stand under each place that gives the
 * finding (`//^^^ code`); `good` is the same text mended and gives none. Both are run as tests and shown as help.
 */
export interface Example {
  readonly given?: string;
  readonly bad: string;
  readonly good: string;
}
