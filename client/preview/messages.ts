/** What the panel and its page say to each other. */
import type { Configuration, PlaceInFile, Preview, Situation } from '../../shared/protocol.ts';

export type ToPage =
  | { readonly type: 'show'; readonly uri: string; readonly preview: Preview }
  /** The text has changed since the preview was made; a new one is on its way. */
  | { readonly type: 'older' }
  /** The editor's first visible line begins at this offset. */
  | { readonly type: 'scroll'; readonly offset: number }
  /** `version` is that of the text in which the cursor has this offset. */
  | { readonly type: 'cursor'; readonly offset: number; readonly version: number }
  /** Walk the path of the finding nearest to this offset. */
  | { readonly type: 'walk'; readonly offset: number }
  | { readonly type: 'situation'; readonly situation: Situation | undefined };

export type ToPanel =
  | { readonly type: 'ready' }
  | { readonly type: 'scrolled'; readonly offset: number }
  /** Show this place in the text; `focus` moves the keyboard there too. */
  | { readonly type: 'reveal'; readonly place: PlaceInFile; readonly focus: boolean }
  /** A walk has come to the end of its path. */
  | { readonly type: 'walked' }
  | { readonly type: 'choose'; readonly card?: string; readonly configuration?: Configuration }
  | { readonly type: 'situation'; readonly offset: number };
