/** How much of each a file holds: by it the lessons of the walkthrough see that something was added. */
import { all } from '../../grammar/navigate.ts';
import type { Finding } from '../../shared/finding.ts';
import type { Counts } from '../../shared/protocol.ts';
import type { Snapshot } from '../snapshot.ts';

export function countsOf({ parsed: { file } }: Snapshot, findings: readonly Finding[]): Counts {
  return {
    errors: findings.filter(({ level }) => level === 'error').length,
    steps: all(file, 'step').length,
    items: all(file, 'item').flatMap(({ names }) => names).length,
    rules: all(file, 'rule').length,
  };
}
