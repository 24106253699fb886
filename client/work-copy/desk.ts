/** What a view may see and do. */
import type { Job } from '../../shared/job.ts';
import type { Clocks } from './clocks.ts';
import type { Drafts } from './drafts.ts';
import type { Happening } from './entries.ts';
import type { Signal } from './signal.ts';
import type { Walk } from './state.ts';
import type { Speech } from './words.ts';

export interface Desk {
  readonly job: Job;
  readonly walk: Walk;
  readonly speech: Speech;
  readonly clocks: Clocks;
  readonly signal: Signal;
  readonly drafts: Drafts;
  /** Wall time in milliseconds. */
  now(): number;
  /** Writes down what happened and shows where the job then stands. */
  add(...happenings: readonly Happening[]): void;
  /** As things stand after what was added. */
  fresh(): Desk;
}
