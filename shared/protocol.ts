/**
 * What extension and server say to each other beyond the Language Server Protocol. Files are named by their URI, places
 * by UTF-16 offsets in the version of the text that the answer names.
 */
import type { Level } from './finding.ts';
import type { NotFollowed } from './not-followed.ts';
import type { Span } from './text.ts';

/** The methods, by the name that goes over the wire. */
export const methods = {
  preview: 'cardwright/preview',
  situation: 'cardwright/situation',
  export: 'cardwright/export',
  steps: 'cardwright/steps',
  counts: 'cardwright/counts',
  compare: 'cardwright/compare',
  report: 'cardwright/report',
  /** Client to server: the records of all released cards in the workspace. */
  releases: 'cardwright/releases',
  explain: 'cardwright/explain',
  rulebook: 'cardwright/rulebook',
  /** Server to client, where the server has no disk of its own (in a browser). */
  readCards: 'cardwright/readCards',
  /** As `readCards`, one file that a card names: its bytes, or null where it is not to be had. */
  readFile: 'cardwright/readFile',
  /** Server to client: the findings of a file are new, and so is everything else that was worked out from it. */
  checked: 'cardwright/checked',
  /** Client to server: the writer trusts the workspace from now on. */
  trusted: 'cardwright/trusted',
} as const;

export interface InitializationOptions {
  /** How findings reach the editor. Where absent they are pulled by an editor that can, and pushed to one that cannot. */
  readonly findings?: 'push' | 'pull';
  /** The editor has the commands of our extension, so that lenses and fixes may name them. */
  readonly commands?: boolean;
  /** False while the writer does not trust the workspace: its settings files then only raise levels. True where absent. */
  readonly isTrusted?: boolean;
  /** For an editor that cannot be asked for its settings. */
  readonly settings?: unknown;
}

/** The value of each variant by its name. */
export type Configuration = Readonly<Record<string, string>>;

// ---------------------------------------------------------------- preview

export interface PreviewParams {
  readonly uri: string;
  /** The name of a card in the file; the first one where absent or unknown. */
  readonly card?: string;
  /** Where absent, the card is shown for all machines. */
  readonly configuration?: Configuration;
}

export interface Preview {
  /** The version of the text that this was made from. */
  readonly version: number;
  /** The URI of each file by the name that `data-file` has in the body. */
  readonly files: Readonly<Record<string, string>>;
  readonly cards: readonly CardTitle[];
  /** The card that is shown; absent where the file has none. */
  readonly card?: string;
  /** The tag of the language that it is written in. */
  readonly language?: string;
  readonly configurations: readonly { readonly label: string; readonly values: Configuration }[];
  /** The card as HTML. Its blocks name their place in `data-file`, `data-offset` and `data-end`. */
  readonly body: string;
  readonly style: string;
  /** How much of the card the proof follows; absent where there is no card. */
  readonly coverage?: PreviewCoverage;
  readonly findings: readonly PreviewFinding[];
}

export interface PreviewCoverage {
  readonly words: string;
  readonly notFollowed: readonly (NotFollowed & { readonly place: PlaceInFile })[];
}

export interface CardTitle {
  readonly name: string;
  readonly title: string;
}

export interface PreviewFinding {
  readonly code: string;
  readonly level: Level;
  readonly message: string;
  readonly source?: string;
  readonly place: PlaceInFile;
  readonly path: readonly WalkPlace[];
}

export interface PlaceInFile extends Span {
  readonly uri: string;
}

/** One place on the path of a finding, and what happens there. */
export interface WalkPlace extends PlaceInFile {
  readonly text: string;
}

// ---------------------------------------------------------------- what may be so at a step

export interface SituationParams {
  readonly uri: string;
  readonly offset: number;
}

/** What may be so before a step, over all paths that reach it. */
export interface Situation {
  /** The step or action that the offset lies in. */
  readonly place: PlaceInFile;
  readonly items: readonly ItemSituation[];
  /** One network a supply, drawn. */
  readonly supplies: readonly { readonly label: string; readonly svg: string }[];
  /** One time line an item that has duties, drawn. */
  readonly runs: readonly { readonly label: string; readonly svg: string }[];
}

export interface ItemSituation {
  readonly label: string;
  readonly at?: string;
  readonly states: readonly string[];
  /** Whether it is in its normal state; absent where it has none. */
  readonly normal?: 'yes' | 'perhaps' | 'no';
}

// ---------------------------------------------------------------- review

export interface CompareParams {
  readonly uri: string;
  /** The older text by its URI and, once it was asked for, what that uses; null where there is none. Absent: the last release. */
  readonly older?: { readonly uri: string; readonly texts: Readonly<Record<string, string | null>> };
}

export type Compared =
  | { readonly type: 'page'; readonly html: string }
  /** Texts that the older one uses: asked for once, and given with the next request. */
  | { readonly type: 'needs'; readonly uris: readonly string[] }
  | { readonly type: 'nothing'; readonly why: string };

export interface ReportParams {
  /** The script of a report. */
  readonly script: string;
}

export interface ReleasesParams {
  /** As they stand in the pages. */
  readonly records: readonly string[];
}

// ---------------------------------------------------------------- the rest

export interface ExportParams {
  readonly uri: string;
  /** The card around this offset is meant, or else the one with this name, or the only one. */
  readonly offset?: number;
  readonly card?: string;
  /** Also while the card has errors, marked as a draft on each page. */
  readonly draft: boolean;
  /** The script of the work copy. Where absent, the file is for paper and reading only. */
  readonly workCopy?: string;
}

export type Exported =
  | { readonly type: 'card'; readonly fileName: string; readonly html: string }
  /** The card has errors and no draft was asked for. */
  | { readonly type: 'refused'; readonly errors: number }
  /** The file has several, and the question says neither which nor where. */
  | { readonly type: 'several'; readonly cards: readonly CardTitle[] }
  | { readonly type: 'no-card' };

export interface StepsParams {
  readonly uri: string;
  /** A list as it was copied from elsewhere, one step a line or numbered. */
  readonly list: string;
  /** Where the steps are to stand: they are done by whoever does the step above. */
  readonly offset: number;
}

export interface Steps {
  /** Statements in our own language; empty where the list holds no sentence. */
  readonly text: string;
}

export interface CountsParams {
  readonly uri: string;
}

/** How many of each a file holds. */
export interface Counts {
  readonly errors: number;
  readonly steps: number;
  readonly items: number;
  readonly rules: number;
}

export interface ReadFile {
  readonly uri: string;
  /** The folders that it may lie in, as URIs. */
  readonly folders: readonly string[];
  /** In bytes: what is larger is not read. */
  readonly largest: number;
}

export interface ExplainParams {
  readonly code: string;
}

export interface Explanation {
  readonly markdown: string;
}

export interface CheckedParams {
  readonly uri: string;
  /** The checks that the settings switch off or lower for this file, each as it stands there: `safety: off`. */
  readonly lowered: readonly string[];
}

export interface RulebookParams {
  readonly uri: string;
}

/** Every card and settings file of the workspace's folders, with its text; null for settings that are there and cannot be read. */
export type ReadCards = readonly { readonly uri: string; readonly text: string | null }[];
