import type { Condition } from '../../../shared/card.ts';
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
