import type { BranchFact } from '../../proof/facts.ts';
import type { Found } from '../finding.ts';

export function foundBranch({ place, path, configuration }: BranchFact, message: string): Found {
  return { place, path, message: configuration ? `${message} This is so ${configuration}.` : message };
}
