import type { Condition } from '../../../shared/card.ts';
import type { BranchFact } from '../../proof/facts.ts';
import type { Found } from '../finding.ts';
import { conditionsAskedBy } from './card.ts';
import { boundsIn } from './limits.ts';

export function foundBranch({ place, path, configuration }: BranchFact, message: string): Found {
  return { place, path, message: configuration ? `${message} This is so ${configuration}.` : message };
}

/** A bound with a finding of its own may pass or fail: nothing more is said of it. */
export function asksFaultyBound({ statement }: BranchFact): boolean {
  return conditionsAskedBy(statement).some(hasFault);
}

function hasFault(condition: Condition): boolean {
  return [...boundsIn(condition, true)].some(({ fault }) => fault !== undefined);
}
