import type { Worker } from 'node:worker_threads';
import type { CardFile } from './files.ts';

/** What a thread begins with: the folder, and the files that the user has named, as they were read. */
export interface ThreadData {
  readonly folder: string;
  readonly files: readonly CardFile[];
}

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
  /** The script of a report, which the build makes too. */
  readonly reportScript: () => string;
  readonly colours: boolean;
  /** A digest of this program: whatever is otherwise in it gives another. */
  readonly program: () => string;
  /** Runs this program once more on a thread of its own; absent where it cannot. */
  readonly startThread?: (data: ThreadData) => Worker;
  /** Ends a watch, which goes on until then. */
  readonly ends?: AbortSignal;
  /** Says how far long work has come: what is done, with which of how many. */
  readonly tell: (doing: string, number: number, of: number) => void;
}

/** What a process finds of it; the rest is made of that. */
export type Machine = Omit<Surroundings, 'tell'> & {
  /** Writes to a terminal on which a line may be wiped; without it no progress is told. */
  readonly status?: (text: string) => void;
};

/** A command cannot do what it was asked; the message says why, and what to do. */
export class CannotRun extends Error {}
