/**
 * Mutants that no test can notice, because the product does the same with them: each with the reason. A mutant is known by its
 * file, the line of source that it changes, and what it puts there, so that it is found again when lines move.
 */
export interface Equivalent {
  readonly file: string;
  /** The line of source, without the blanks around it. */
  readonly line: string;
  readonly replacement: string;
  readonly why: string;
}

export const equivalents: readonly Equivalent[] = [];
