/** Which readings still stand at a place of the job, by the rule of the proof, and what they tell of a condition. */

import type { Job, JobCondition, MoveIndex, Unit } from '../../shared/job.ts';
import type { Entry } from './entries.ts';
import { type Exact, exact } from './exact.ts';
import { isInside, numberIn, toBase } from './readings.ts';

/** One reading as it was entered. */
export interface Entered {
  readonly at: number;
  readonly move: MoveIndex;
  /** Of a gauge that is worked out, what it is worked out from is named by its own gauge. */
  readonly gauge: number;
  /** With its unit. */
  readonly text: string;
  /** In the base unit of its measure. */
  readonly base: Exact;
}

/** What a gauge shows, and the entries that say so. */
export interface Known {
  readonly base: Exact;
  readonly from: readonly Entered[];
}

export type Lookup = (gauge: number) => Known | undefined;

export interface Answer {
  readonly holds: boolean;
  readonly from: readonly Entered[];
}

export class Readings {
  /** The newest of each gauge; `line` is kept while its unit is being done. */
  readonly #newest = new Map<number, { readonly entered: Entered; readonly line?: number }>();

  constructor(private readonly job: Job) {}

  enter({ at, move, line, value, unit, number }: Extract<Entry, { type: 'reading' }>): void {
    const reading = this.#unitAt(move)?.lines[line];
    if (reading?.type !== 'reading') return;
    const { gauge } = reading;
    const measure = this.job.gauges[gauge]?.units[unit];
    const meant = number === undefined ? numberIn(value) : exact(number);
    if (measure === undefined || meant === undefined) this.#newest.delete(gauge);
    else {
      const entered = { at, move, gauge, text: `${value} ${measure.printed}`, base: toBase(meant, measure) };
      this.#newest.set(gauge, { entered, line });
    }
  }

  /** `ends`: an index in `Job.ends`. */
  end(ends: number | undefined): void {
    for (const gauge of this.#ended(ends)) this.#newest.delete(gauge);
  }

  #ended(ends: number | undefined): readonly number[] {
    return ends === undefined ? [] : (this.job.ends[ends] ?? []);
  }

  clear(): void {
    this.#newest.clear();
  }

  /** A unit is over: what was read in it counts from here on, unless something later in it ended that. */
  leave(move: MoveIndex): void {
    const unit = this.#unitAt(move);
    if (unit === undefined) return;
    for (const [gauge, { entered, line }] of [...this.#newest]) {
      const own = entered.move === move ? line : undefined;
      if (this.#isEnded(gauge, unit, own, unit.lines.length)) this.#newest.delete(gauge);
      else if (own !== undefined) this.#newest.set(gauge, { entered });
    }
  }

  /** What stands before a line of a unit, or at a question. `others`: the units that somebody else is doing, which may end any of it. */
  at(move: MoveIndex, line: number, others: readonly MoveIndex[]): Lookup {
    const unit = this.#unitAt(move);
    const isDisturbed = (gauge: number) =>
      others.some((other) => {
        const its = other === move ? undefined : this.#unitAt(other);
        return its !== undefined && [its, ...its.lines].some(({ ends }) => this.#ended(ends).includes(gauge));
      });
    const standing = (gauge: number): Entered | undefined => {
      const found = this.#newest.get(gauge);
      if (found === undefined || isDisturbed(gauge)) return undefined;
      const own = found.entered.move === move ? found.line : undefined;
      if (own !== undefined && own >= line) return undefined;
      return unit && this.#isEnded(gauge, unit, own, line) ? undefined : found.entered;
    };
    return (gauge) => {
      const own = standing(gauge);
      return own ? { base: own.base, from: [own] } : this.#workedOut(gauge, standing);
    };
  }

  #workedOut(gauge: number, standing: (gauge: number) => Entered | undefined): Known | undefined {
    const parts = this.job.gauges[gauge]?.workedOut ?? [];
    const from = parts.flatMap((part) => standing(part.gauge) ?? []);
    if (parts.length === 0 || from.length < parts.length) return undefined;
    return { base: combined(parts.map(({ sign }, index) => ({ sign, base: (from[index] as Entered).base }))), from };
  }

  /** Whether what was read before (or at line `own`) no longer counts before line `until`. */
  #isEnded(gauge: number, unit: Unit, own: number | undefined, until: number): boolean {
    if (own === undefined && this.#ended(unit.ends).includes(gauge)) return true;
    return unit.lines.some(
      (line, index) => index > (own ?? -1) && index < until && this.#ended(line.ends).includes(gauge),
    );
  }

  #unitAt(move: MoveIndex): Unit | undefined {
    const unit = this.job.moves[move];
    return unit?.type === 'unit' ? unit : undefined;
  }
}

export function combined(parts: readonly { readonly sign: 1 | -1; readonly base: Exact }[]): Exact {
  return parts.reduce((sum, { sign, base }) => (sign === 1 ? sum.add(base) : sum.sub(base)), exact('0'));
}

/** Whether a condition holds, where what is known settles it. */
export function answerOf(condition: JobCondition, known: Lookup): Answer | undefined {
  switch (condition.type) {
    case 'open':
      return undefined;
    case 'reading': {
      const value = known(condition.gauge);
      return value && { holds: isInside(value.base, condition.ends), from: value.from };
    }
    case 'not': {
      const term = answerOf(condition.term, known);
      return term && { holds: !term.holds, from: term.from };
    }
    default: {
      const settling = condition.type === 'or';
      const terms = condition.terms.map((term) => answerOf(term, known));
      const alone = terms.find((term) => term?.holds === settling);
      if (alone) return alone;
      if (terms.includes(undefined)) return undefined;
      return { holds: !settling, from: [...new Set(terms.flatMap((term) => term?.from ?? []))] };
    }
  }
}
