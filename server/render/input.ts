/** What the renderer is told: the card itself, and what the proof and the caller know about it. Plain data; the renderer reads nothing else. */

import type { Card, Condition, Item, Seconds } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import type { Release } from '../../shared/release.ts';
import type { Settings } from '../../shared/settings.ts';
import type { Place } from '../../shared/text.ts';

export interface RenderInput {
  readonly card: Card;
  /** The value of each variant by its name. Where absent, the card is rendered for all machines and each restriction is printed. */
  readonly configuration?: ReadonlyMap<string, string>;
  /** In words, all machines that read the same as the configuration. */
  readonly machines?: string;
  /** Any finding of level `error` makes the card a draft, which lists its errors. */
  readonly findings: readonly Finding[];
  /** Checks that the settings switch off or lower; any makes the card a draft. */
  readonly lowered?: readonly string[];
  readonly accepted: readonly AcceptedDeviation[];
  readonly beforeYouStart: readonly StartingFact[];
  /** Absent where the card could not be walked. */
  readonly times?: CardTimes;
  /** What the card changes, as it is when the card finishes. */
  readonly atEnd: readonly ItemAtEnd[];
  readonly atStops?: readonly ItemAtStop[];
  /** What checks ask that a rule or a hazard relies on: nobody goes on past one that fails. */
  readonly reliedOn?: ReadonlySet<Condition>;
  /** By the path as it is written in the card. A figure that is not here is named by its caption alone. */
  readonly figures: ReadonlyMap<string, FigureFile>;
  readonly settings: RenderSettings;
  /** The script of the work copy. Where absent, the file is for paper and reading only; a draft always is. */
  readonly workCopy?: string;
  /** What it is released from, and the digest of that; absent where it is no release. */
  readonly release?: { readonly made: Release; readonly digest: string };
  readonly since?: Since;
  /** For the preview: writes `data-file`, `data-offset` and `data-end` (UTF-16 offsets) on each block, and the findings at their steps. */
  readonly withPositions: boolean;
}

/** What is otherwise than in an older revision. */
export interface Since {
  readonly revision: string;
  readonly changes: readonly ChangeSince[];
}

export interface ChangeSince {
  readonly text: string;
  /** What is marked with a bar: a statement, or with `inside` every step in it. Absent where there is nothing to mark. */
  readonly now?: Place;
  readonly inside: boolean;
  /** Steps that hang on it: they are marked too. */
  readonly reliedOnAt?: readonly Place[];
}

/** A finding that the writer accepts, and why. `where` is its place; that of the `accept` where nothing is found. */
export interface AcceptedDeviation {
  readonly code: string;
  /** What the finding says. */
  readonly finding?: string;
  readonly because: string;
  /** Who accepts it; absent where that is still to be signed. */
  readonly by?: string;
  readonly where: Place;
  /** Of the acceptance itself. */
  readonly acceptance: Place;
}

/** What the crew must make sure of before the first step, because the card relies on it and never looks. */
export type StartingFact =
  | {
      readonly type: 'state';
      readonly item: Item /** Any of these will do. */;
      readonly states: readonly number[];
      readonly because?: string;
      /** Of what `because` is the name; absent for a reason in the writer's own words. */
      readonly from?: 'rule' | 'hazard' | 'supply';
    }
  | { readonly type: 'rested'; readonly item: Item; readonly rest: Seconds }
  | { readonly type: 'words'; readonly text: string };

/** Several states where the ways through the card leave it differently. `because`: why it is not put back. */
export interface ItemAtEnd {
  readonly item: Item;
  readonly states: readonly number[];
  readonly putBack: boolean;
  readonly because?: string;
}

/** What may not be put back yet where the card stops: not in its normal state. */
export type ItemAtStop = Pick<ItemAtEnd, 'item' | 'states'>;

/** Elapsed times over all paths that finish. An absent `most` is unknown. */
export interface CardTimes {
  readonly least: Seconds;
  readonly most?: Seconds;
  readonly perRole: readonly { readonly role: string; readonly least: Seconds; readonly most?: Seconds }[];
}

export interface FigureFile {
  readonly mime: 'image/png' | 'image/jpeg' | 'image/svg+xml';
  readonly data: Uint8Array;
}

export type RenderSettings = Pick<Settings, 'secondUnits' | 'paper' | 'print' | 'record'>;
