/** What the binding met, by its type; and how the names in it are spoken of. */
import type { Fix } from '../../../shared/finding.ts';
import type { Place } from '../../../shared/text.ts';
import type { Bound } from '../../binding/bind.ts';
import type { Problem } from '../../binding/problems.ts';
import type { Sort } from '../../binding/references.ts';
import { replace } from './edits.ts';
import { alternatives } from './words.ts';

export type ProblemOf<Type extends Problem['type']> = Extract<Problem, { readonly type: Type }>;

/** Problems of one type; one that a procedure's argument brings about speaks of the label that it stands for. */
export function* problemsOf<Type extends Problem['type']>(bound: Bound, type: Type): Iterable<ProblemOf<Type>> {
  for (const problem of bound.problems) if (problem.type === type) yield problem as ProblemOf<Type>;
}

/** What does not fit an argument of a `do`, by the type of what is wrong. */
export function* misfitsOf<Type extends Problem['type']>(
  bound: Bound,
  type: Type,
): Iterable<ProblemOf<'argument-misfit'> & { readonly misfit: ProblemOf<Type> }> {
  for (const problem of problemsOf(bound, 'argument-misfit')) {
    if (problem.misfit.type === type)
      yield problem as ProblemOf<'argument-misfit'> & { readonly misfit: ProblemOf<Type> };
  }
}

export function didYouMean(near: readonly string[], otherwise: string): string {
  return near.length > 0 ? `Did you mean ${alternatives(near.map((name) => `“${name}”`))}?` : otherwise;
}

/** A fix for each near name. */
export function changeTo(place: Place, near: readonly string[]): Fix[] {
  return near.map((name) => ({ title: `Change to “${name}”`, edits: [replace(place, name)] }));
}

const sorts: Readonly<Record<Sort, string>> = {
  kind: 'a kind',
  state: 'a state',
  item: 'an item',
  gauge: 'a gauge',
  limit: 'a limit',
  supply: 'a supply',
  node: 'a node',
  hazard: 'a hazard',
  rule: 'a rule',
  variant: 'a variant',
  value: 'a value of a variant',
  procedure: 'a procedure',
  parameter: 'a parameter',
  card: 'a card',
  role: 'a role',
  label: 'a label',
};

/** `an item` */
export function aSort(sort: Sort): string {
  return sorts[sort];
}

/** `item` */
export function sortName(sort: Sort): string {
  return sorts[sort].replace(/^an? /, '');
}
