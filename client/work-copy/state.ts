/** Where a job stands, as plain data. */
import type { JobLine, MoveIndex } from '../../shared/job.ts';
import type { Entry } from './entries.ts';
import type { Lookup, Readings } from './known.ts';
import type { Use } from './rests.ts';

/** Whether something is as it must be. */
export interface Judged {
  readonly passed?: boolean | undefined;
  /** The readings from which that follows, where nobody was asked. */
  readonly from?: string | undefined;
  /** Why the work goes on although it is not as it must be. */
  readonly anyway?: { readonly reason: string; readonly name: string } | undefined;
}

/** It is not as it must be, and nobody has answered for going on. */
export function isFailing({ passed, anyway }: Judged): boolean {
  return passed === false && anyway === undefined;
}

/** What was entered at one line of the unit that is being done. */
export interface LineState extends Judged {
  readonly began?: number | undefined;
  readonly ended?: number | undefined;
  /** Why it began though shut, or ended early. */
  readonly reason?: string;
  readonly value?: string;
  readonly values?: readonly string[];
  readonly unit?: number;
  readonly limit?: number | undefined;
  readonly parts?: string | undefined;
  /** Of a reading, whether it is in its limit; it may be so and yet have come too late. */
  readonly inside?: boolean | undefined;
  /** By how much it came too late; of a wait that ran out, nobody knows. */
  readonly late?: number | 'ran out' | undefined;
  readonly watches: Readonly<Record<number, Judged>>;
}

export interface Visit {
  readonly at: number;
  readonly leftOut: boolean;
  readonly reason?: string;
  readonly lines: ReadonlyMap<number, LineState>;
}

/** Somebody went on although something was not as it must be. */
export interface WentOn {
  readonly at: number;
  readonly move: MoveIndex;
  readonly reason: string;
  readonly name: string;
  /** Nobody looked whether it was so. */
  readonly isUnchecked?: boolean;
  /** What was to be kept, and the readings which say that it is not. */
  readonly keep?: number;
  readonly from?: string | undefined;
}

/** How an item was brought, and where and when. */
export interface Stands {
  readonly state: number;
  readonly move: MoveIndex;
  readonly at: number;
}

export interface Walk {
  readonly wentOn: readonly WentOn[];
  /** The moves that are next: more than one where people work at the same time. */
  readonly next: readonly MoveIndex[];
  /** Units that were begun out of order. */
  readonly opened: ReadonlySet<MoveIndex>;
  readonly visits: ReadonlyMap<MoveIndex, readonly Visit[]>;
  /** Of the units that are being done. */
  readonly lines: ReadonlyMap<MoveIndex, ReadonlyMap<number, LineState>>;
  /** What is to be kept while a unit is done, by its index in `Job.keeps`, where somebody or a reading has told. */
  readonly keeps: ReadonlyMap<MoveIndex, Readonly<Record<number, Judged>>>;
  /** The round of each loop that is being done. */
  readonly rounds: ReadonlyMap<MoveIndex, number>;
  /** The runs of each item with duties, by its index in `Job.duties`. */
  readonly uses: readonly (readonly Use[])[];
  /** By the item's index in `Job.items`: those of which something is known. */
  readonly stands: ReadonlyMap<number, Stands>;
  /** The items that the work has set. */
  readonly set: ReadonlySet<number>;
  readonly readings: Readings;
  /** Whoever stopped has not said why. */
  readonly owesReason: boolean;
  readonly ended?: 'finished' | 'stopped';
  /** Who works now, one for each role. */
  readonly names: readonly string[];
  readonly head?: Extract<Entry, { type: 'head' }>;
  readonly finish?: Extract<Entry, { type: 'finish' }>;
}

export const noEntry: LineState = { watches: {} };

/** What is only asked where the work has set something is not asked where it has not. */
export function isAsked({ ifSet }: JobLine, { set }: Walk): boolean {
  return ifSet === undefined || set.has(ifSet);
}

/** The readings that still stand before a line of a unit, or at a question. */
export function knownAt({ readings, next, opened }: Walk, move: MoveIndex, line: number): Lookup {
  return readings.at(move, line, [...next, ...opened]);
}
