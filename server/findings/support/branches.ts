import type { Condition, Statement } from '../../../shared/card.ts';
import { conditionsAskedBy } from '../../../shared/conditions.ts';
import type { BranchFact } from '../../proof/questions/branches.ts';
import { boundsIn } from './limits.ts';

/** A bound with a finding of its own may pass or fail: nothing more is said of it. */
export function asksFaultyBound({ statement }: BranchFact): boolean {
  return conditionsAskedBy(statement).some(hasFault);
}

function hasFault(condition: Condition): boolean {
  return [...boundsIn(condition, true)].some(({ fault }) => fault !== undefined);
}

/** What stands right in a branch that no path takes. */
export function neverTaken(branches: readonly BranchFact[]): ReadonlySet<Statement> {
  const never = new Set<Statement>();
  for (const { statement, passes, fails } of branches) {
    if (statement.type !== 'if') continue;
    if (!passes) for (const part of statement.body) never.add(part);
    if (!fails) for (const part of statement.otherwise ?? []) never.add(part);
  }
  return never;
}
