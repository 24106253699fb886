import type { Level } from '../../shared/finding.ts';
import type { Place } from '../../shared/text.ts';
import type { LimitChange } from '../render/language/change-words.ts';

/** What a change is of. */
export type ChangeSort =
  | 'head'
  | 'stage'
  | 'step'
  | 'wording'
  | 'limit'
  | 'time'
  | 'state'
  | 'role'
  | 'admonition'
  | 'way'
  | 'equipment'
  | 'finding';

/** One thing that is otherwise for whoever works with the card, as a sentence. */
export interface Change {
  readonly sort: ChangeSort;
  readonly text: string;
  /** Of a finding. */
  readonly level?: Level;
  /** Of a limit. */
  readonly limit?: LimitChange;
  /** Where it is in the new texts; absent where it is gone. */
  readonly now?: Place;
  /** The steps that hang on it, in the new texts. */
  readonly reliedOnAt?: readonly Place[];
  /** Where it was in the old texts; absent where it is new. */
  readonly was?: Place;
}
