/** What a rulebook that is shipped has beside its text. */

/** A slip in the good card that breaks one rule: each line taken out, with what stands there instead. */
export type Slip = readonly (readonly [line: string, instead: string])[];

export interface Rulebook {
  /** What a `use` names it by: `std:lockout`. */
  readonly name: string;
  readonly text: string;
  /** What it is about, whom it is for, and what it cannot tell. */
  readonly about: string;
  /** A file that uses it and keeps all its rules. */
  readonly good?: string;
  /** By the rule that each breaks, alone. */
  readonly slips?: Readonly<Record<string, Slip>>;
  /** The codes of the findings that look after what rules cannot say. */
  readonly findings?: readonly string[];
}

/** The good card of a rulebook with a slip in it. */
export function withSlip(good: string, slip: Slip): string {
  return slip.reduce((text, [line, instead]) => text.replace(line, () => instead), good);
}
