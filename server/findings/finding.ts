/** What a file in this folder says of one sort of finding. Everything about it is in that file: words, sources, examples, check and fixes. */
import type { Parsed, Text } from '../../grammar/syntax.ts';
import type { Card } from '../../shared/card.ts';
import type { Example, Finding, Level } from '../../shared/finding.ts';
import type { Settings } from '../../shared/settings.ts';
import type { Bound } from '../binding/bind.ts';
import type { Proof } from '../proof/facts.ts';
import type { Across } from './support/across.ts';

/** A published source, and how far this project has seen it. */
export interface Source {
  readonly title: string;
  /** `seen`: the point was read in a copy of it. `from memory`: compare with the original before relying on the wording. */
  readonly status: 'seen' | 'from memory';
}

/** The page that `explain CODE` prints. */
export interface Help {
  readonly what: string;
  readonly why: string;
  readonly whatToDo: string;
}

/** A finding without what its sort already says. */
export interface Found extends Omit<Finding, 'code' | 'level' | 'path' | 'fixes'> {
  readonly path?: Finding['path'];
  readonly fixes?: Finding['fixes'];
  /** The names of the things that it is about: where one of them stands in a line with a slip, this follows from the slip. */
  readonly about?: readonly string[];
}

/** One file by itself, with the names in it bound. */
export interface FileFacts {
  readonly file: string;
  readonly parsed: Parsed;
  readonly bound: Bound;
  readonly settings: Settings;
  /** The text of any file that a place may lie in. */
  readonly textOf: (file: string) => string;
  /** The content of a figure, undefined where there is no such file; absent where figures cannot be read. */
  readonly bytesOf?: (file: string) => Uint8Array | undefined;
}

/** One card, proved. */
export interface CardFacts {
  readonly card: Card;
  readonly proof: Proof;
  readonly settings: Settings;
  readonly textOf: (file: string) => string;
}

/** All files that are looked at together, in the order of their paths. */
export interface WorkspaceFacts {
  readonly files: readonly Across[];
  /** Those of a folder that was looked through: the cards of it that use them are among the files. */
  readonly whole: ReadonlySet<string>;
}

/**
 * What may become another while the names and the structure of a file stay: the words of steps, admonitions and comments; the numbers of bounds that
 * gauges are held against; what is proved.
 */
export type Reading = 'words' | 'bounds' | 'proof';

/** A check of one text after the other: of all words it reads those of that text alone, and its places lie in that text. */
export interface InTexts<Read = unknown> {
  /** Those that it reads, with what it knows of each. */
  texts(facts: FileFacts): ReadonlyMap<Text, Read>;
  inText(read: Read, facts: FileFacts): Iterable<Found>;
}

export interface FindingSort {
  readonly code: string;
  readonly level: Level;
  /** What it is about is not understood and so not proved, or is a fault of this program: no reason that a writer gives makes that right. */
  readonly notUnderstood?: true;
  /** Which of them it reads, where not all: where only another has changed it is not looked for again. */
  readonly reads?: readonly Reading[];
  /** It says what is so on every path: where another card that comes to the same text does not find it, it is not. */
  readonly everyPath?: true;
  /** One line. */
  readonly title: string;
  readonly help: Help;
  readonly sources: readonly Source[];
  readonly examples: readonly Example[];
  /** A sort has the checks it needs, mostly one. */
  readonly inTexts?: InTexts;
  readonly inFile?: (facts: FileFacts) => Iterable<Found>;
  readonly inCard?: (facts: CardFacts) => Iterable<Found>;
  readonly inWorkspace?: (facts: WorkspaceFacts) => Iterable<Found>;
}
