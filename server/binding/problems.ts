/** What is wrong with the names, units and numbers of a file: facts, which the findings put into sentences. */

import type { Place } from '../../shared/text.ts';
import type { Dimension, Unit } from '../../shared/units.ts';
import type { Sort } from './references.ts';

/** Why a label that exists cannot be jumped to from here. */
export type Barrier = 'into a block' | 'into a lane' | 'out of a lane' | 'into a when-stopped stage' | 'several titles';

/** The nearest known names, best first; empty where none is near. */
type Near = readonly string[];

export type Problem =
  /** No such name. `of` is the label of what should have it: the item of a state, the gauge of a limit, the supply of a node. */
  | {
      readonly type: 'unknown-name';
      readonly place: Place;
      readonly name: string;
      readonly sort: Sort;
      readonly of?: string;
      /** The names that it has, where it is the part of something. */
      readonly among?: readonly string[];
      readonly near: Near;
    }
  /** The name is known, but is that of another sort of thing. */
  | {
      readonly type: 'wrong-sort';
      readonly place: Place;
      readonly name: string;
      readonly expected: Sort;
      readonly found: Sort;
      readonly declared: Place;
    }
  | {
      readonly type: 'unreachable-label';
      readonly place: Place;
      readonly name: string;
      readonly reason: Barrier;
      readonly declared: Place;
    }
  /** A second declaration; where it comes with a file that was used, it stands at the `use` and says in which file the other one is. */
  | {
      readonly type: 'duplicate-name';
      readonly place: Place;
      readonly name: string;
      readonly sort: Sort;
      readonly first: Place;
      readonly firstSort: Sort;
      readonly second: Place;
    }
  /** A part that can be said once only, said again: `number`, `normally`, `at` … */
  | { readonly type: 'said-twice'; readonly place: Place; readonly what: string; readonly first: Place }
  /** It comes back to itself. `through` names what leads from it to there, first and last being `name`. */
  | {
      readonly type: 'recursion';
      readonly place: Place;
      readonly name: string;
      readonly sort: Sort;
      readonly through: readonly string[];
    }
  /** Written out, the card has more statements than `most`. */
  | { readonly type: 'too-large'; readonly place: Place; readonly most: number }
  | { readonly type: 'unused'; readonly place: Place; readonly name: string; readonly sort: Sort }
  | { readonly type: 'missing-file'; readonly place: Place; readonly path: string; readonly near: Near }
  /** What is fitted is not among the parts that the card lists. `of` is the card's title, where it stands in what that card does. */
  | {
      readonly type: 'unlisted-part';
      readonly place: Place;
      readonly name: string;
      readonly of?: string;
      readonly near: Near;
    }
  /** `through` are the files from this `use` back to the file it stands in. */
  | { readonly type: 'use-cycle'; readonly place: Place; readonly path: string; readonly through: readonly string[] }
  | { readonly type: 'unknown-unit'; readonly place: Place; readonly text: string; readonly near: Near }
  /** `of` is the label of the gauge, where it is one that asks for another dimension; `needed` its unit. */
  | {
      readonly type: 'unit-mismatch';
      readonly place: Place;
      readonly found: Unit;
      readonly expected: Dimension;
      readonly needed?: Unit;
      readonly of?: string;
    }
  /** No source reaches the node even with every link closed. */
  | {
      readonly type: 'unreachable-node';
      readonly place: Place;
      readonly name: string;
      readonly supply: string;
      readonly near: Near;
    }
  /** An item needs a supply on which it is no node. */
  | {
      readonly type: 'not-on-supply';
      readonly place: Place;
      readonly name: string;
      readonly label: string;
      readonly supply: string;
    }
  /** A rule asks what feeds an item, and no supply leads to it. `asks` is the place in the rule. */
  | {
      readonly type: 'on-no-supply';
      readonly place: Place;
      readonly name: string;
      readonly label: string;
      readonly asks: Place;
    }
  /** What is said to stand on the plate of a motor is no duty that is known. */
  | { readonly type: 'unknown-plate'; readonly place: Place; readonly text: string; readonly reason: 'form' | 'rest' }
  /** A role that the card has not got; `done` is the procedure or card that speaks of it, where `place` is the `do`. */
  | {
      readonly type: 'unknown-role';
      readonly place: Place;
      readonly name: string;
      readonly near: Near;
      readonly done?: string;
    }
  | {
      readonly type: 'argument-count';
      readonly place: Place;
      readonly name: string;
      readonly expected: readonly string[];
      readonly found: number;
    }
  /** `expected` is a kind's name or `gauge`; `found` the argument's kind, or `gauge` or `supply`. */
  | {
      readonly type: 'argument-kind';
      readonly place: Place;
      readonly name: string;
      readonly parameter: string;
      readonly expected: string;
      readonly found: string;
    }
  /** What is done with a parameter does not fit the gauge or item that it stands for here. */
  | {
      readonly type: 'argument-misfit';
      readonly place: Place;
      readonly label: string;
      readonly parameter: string;
      readonly misfit: Problem;
    }
  | { readonly type: 'bad-number'; readonly place: Place; readonly what: BadNumber; readonly written: string };

export type BadNumber =
  | 'repeats less than once'
  | 'counts less than one'
  | 'counts too many'
  | 'time out of reach'
  | 'no whole number'
  | 'negative time'
  | 'times in the wrong order'
  | 'scale in the wrong order'
  | 'marks not above zero'
  | 'values in the wrong order'
  | 'negative tolerance';

/** Takes problems as they are found. */
export interface Problems {
  add(problem: Problem): void;
  /** For what is done with a parameter: problems are put at the argument that does not fit. */
  redirected(argument: Place, label: string, parameter: string): Problems;
}

/** Collects problems; the same one at the same place is kept once, however often its text is written out. */
export class ProblemList implements Problems {
  private readonly kept = new Map<string, Problem>();

  add(problem: Problem): void {
    const key = keyOf(problem);
    if (!this.kept.has(key)) this.kept.set(key, problem);
  }

  redirected(argument: Place, label: string, parameter: string): Problems {
    const redirected: Problems = {
      add: (misfit) => this.add({ type: 'argument-misfit', place: argument, label, parameter, misfit }),
      redirected: () => redirected,
    };
    return redirected;
  }

  /** By file, and in each in the order of the text. */
  inOrder(): readonly Problem[] {
    return [...this.kept.values()].sort(
      (a, b) => a.place.file.localeCompare(b.place.file) || a.place.start - b.place.start || a.place.end - b.place.end,
    );
  }
}

function keyOf(problem: Problem): string {
  const { file, start, end } = problem.place;
  return `${problem.type} ${aboutWhat(problem)} ${start} ${end} ${file}`;
}

function aboutWhat(problem: Problem): string {
  if (problem.type === 'argument-misfit') return `${problem.misfit.type} ${aboutWhat(problem.misfit)}`;
  return 'name' in problem ? problem.name : '';
}
