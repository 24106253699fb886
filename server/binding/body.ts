/** What the statements of a card or procedure share while they are written out. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Item, Stage, Statement } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';
import type { CrewScope } from './crew.ts';
import { type AllLabels, declareLabels, type LabelScope } from './labels.ts';
import type { Callable, Scope, Work } from './names.ts';
import { bindParameters, type Parameter } from './parameters.ts';
import type { Declared } from './references.ts';

/** A card that is longer than this when written out is refused, so that a few nested `do`s cannot fill the memory. */
export const mostWrittenOut = 50_000;

/** Procedures that do procedures that do procedures: deeper than this nobody follows, and the memory for it is not there. */
export const deepestDo = 100;

/** How much has been written out for one card, over all that it does. */
export interface Ledger {
  written: number;
  /** Too much was asked for, which is reported once. */
  isSpent: boolean;
}

export function newLedger(): Ledger {
  return { written: 0, isSpent: false };
}

export interface BodyScope extends CrewScope {
  readonly labels: LabelScope;
  readonly ledger: Ledger;
  /** The outermost `do` or `for each` that is being written out. */
  readonly writtenOutAt?: Place;
  readonly library: Library;
  /** The procedures and cards that are being written out, the outermost first. */
  readonly doing: readonly Callable[];
  /** What a look has failed at, behind whose `else` this stands, and what may change without a hand on it. */
  readonly failed?: readonly Item[];
  /** Whether the body of what is `do`ne is wanted: a procedure by itself is complete without it. */
  readonly writesOut: boolean;
}

export type Body = readonly (Stage | Statement)[];

/** What does not change from one writing-out to the next. */
export interface Library {
  /** `do`s that would come back to themselves. */
  readonly refused: ReadonlySet<syntax.Do>;
  labelsOf(callable: Callable): AllLabels;
  parametersOf(callable: Callable): readonly Parameter[];
  /** The name that stands for an item in each round of a `for each`. */
  roundNameOf(scope: Scope, name: syntax.Name): Declared;
}

export function makeLibrary(work: Work, refused: ReadonlySet<syntax.Do>): Library {
  const roundNames = new Map<syntax.Name, Declared>();
  return {
    refused,
    labelsOf: once((callable) => declareLabels(scopeOf(work, callable), callable)),
    parametersOf: once((callable) => bindParameters(scopeOf(work, callable), callable)),
    roundNameOf(scope, name) {
      return getOrInsert(roundNames, name, () => work.references.declare('parameter', name, scope.file));
    },
  };
}

/** The scope in which a card or procedure stands, before any of its own names. */
export function scopeOf(work: Work, { file }: Callable): Scope {
  return { work, file, locals: new Map() };
}

function once<Value extends object>(make: (callable: Callable) => Value): (callable: Callable) => Value {
  const known = new Map<Callable, Value>();
  return (callable) => getOrInsert(known, callable, () => make(callable));
}

/** Counts statements that are written out; false once there are too many, which is reported at the outermost `do` or `for each`. */
export function takeFromLedger(scope: BodyScope, statements: number): boolean {
  if (scope.writtenOutAt === undefined) return true;
  const { ledger, work, writtenOutAt } = scope;
  if (ledger.isSpent) return false;
  ledger.written += statements;
  if (ledger.written <= mostWrittenOut && scope.doing.length <= deepestDo) return true;
  ledger.isSpent = true;
  work.problems.add({ type: 'too-large', place: writtenOutAt, most: mostWrittenOut });
  return false;
}
