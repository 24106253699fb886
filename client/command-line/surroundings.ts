/** What a command meets of the machine it runs on. */
export interface Surroundings {
  /** The folder that paths are given from, and said from. */
  readonly folder: string;
  readonly write: (text: string) => void;
  /** What is written is read by a person at once, and not by another program. */
  readonly terminal: boolean;
  /** For what is no result: why something could not be done. */
  readonly complain: (text: string) => void;
  /** The script of the work copy, which the build makes. */
  readonly workCopy: () => string;
  readonly colours: boolean;
}

/** A command cannot do what it was asked; the message says why, and what to do. */
export class CannotRun extends Error {}
