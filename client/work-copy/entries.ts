/** What happens on a job, one entry after another. The list of entries is all that is kept: everything shown is worked out from it. */
import type { Job, MoveIndex } from '../../shared/job.ts';

export type Happening =
  /** Somebody begins a unit that is not the next one. */
  | { readonly type: 'open'; readonly move: MoveIndex; readonly reason: string }
  /** `name`: whoever agrees that a check in it is not made. */
  | { readonly type: 'tick'; readonly move: MoveIndex; readonly reason?: string; readonly name?: string }
  | { readonly type: 'leave-out'; readonly move: MoveIndex; readonly reason: string; readonly name?: string }
  /** `from`, here and of an answer: the readings from which it follows, where nobody was asked. `late`: its time ran out. */
  | (OfLine & { readonly type: 'check'; readonly passed: boolean; readonly from?: string; readonly late?: true })
  /** One action of a step that has several, where its time counts. */
  | (OfLine & { readonly type: 'did'; readonly reason?: string })
  /** `unit` and `limit` are indices in the reading. `inside` is absent where there is no limit in this unit. */
  | (OfLine & {
      readonly type: 'reading';
      readonly value: string;
      readonly unit: number;
      readonly limit?: number;
      readonly inside?: boolean;
      /** The number that was meant, where `value` alone leaves a doubt. */
      readonly number?: string;
      /** What it was worked out from. */
      readonly parts?: string;
    })
  | (OfLine & { readonly type: 'note'; readonly value: string })
  /** One value for each field, empty where none was entered. `passed` is absent where nothing in it has a limit. */
  | (OfLine & { readonly type: 'fields'; readonly values: readonly string[]; readonly passed?: boolean })
  /** `by`: whoever did what is inspected. */
  | (OfLine & { readonly type: 'sign'; readonly name: string; readonly by?: string })
  /** A run or a wait; with a reason where it was shut. */
  | (OfLine & { readonly type: 'begin'; readonly reason?: string })
  | (OfLine & { readonly type: 'end'; readonly reason?: string })
  | (OfLine & { readonly type: 'watch'; readonly watch: number; readonly passed: boolean; readonly from?: string })
  | (OfKeep & { readonly type: 'keep'; readonly passed: boolean; readonly from?: string })
  /** Going on although something is not as it must be. */
  | (Target & { readonly type: 'anyway'; readonly reason: string; readonly name: string })
  | { readonly type: 'answer'; readonly move: MoveIndex; readonly yes: boolean; readonly from?: string }
  | { readonly type: 'choose'; readonly move: MoveIndex; readonly way: number }
  /** Going where a failed check, reading, watch or keep leads. */
  | { readonly type: 'exit'; readonly move: MoveIndex; readonly to: MoveIndex; readonly text: string }
  /** The reason is asked when the machine is safe. */
  | { readonly type: 'stop' }
  | { readonly type: 'why-stopped'; readonly reason: string }
  /** For which work and by whom: for each of `Job.head`, and for each of `Job.roles` (one where there are none). */
  | {
      readonly type: 'head';
      readonly values: readonly string[];
      readonly names: readonly string[];
      /** For each of `Job.variants` one of its values. */
      readonly machine: readonly number[];
    }
  /** In the middle of the work. */
  | { readonly type: 'hand-over'; readonly from: string; readonly to: string; readonly remarks: string }
  /** For each of the record's fields. */
  | { readonly type: 'finish'; readonly fields: readonly string[] }
  /**
   * Another record was read into this one: of each conflict, the entries of this one and of the other that cannot both count; of each
   * pair in `same`, one of either that say one thing, of which the later does not count once more.
   */
  | {
      readonly type: 'read-in';
      readonly count: number;
      readonly conflicts: readonly Conflict[];
      readonly same?: readonly (readonly string[])[];
    }
  /** What of two records does not count, and who says so. */
  | { readonly type: 'settle'; readonly of: readonly string[]; readonly name: string }
  /** A file was loaded though nobody can vouch for it. */
  | { readonly type: 'loaded'; readonly doubt: Doubt }
  /** Takes back the newest entry that still counts; `of` are the entries that go, filled in when it is noted. */
  | { readonly type: 'undo'; readonly of?: readonly string[] };

export type Conflict = readonly [own: readonly string[], other: readonly string[]];

/** Why a file is not to be taken as it is: it was changed by hand, made with a copy of the card that was changed, or nobody can tell. */
export type Doubt = 'changed' | 'other-copy' | 'unchecked';

export interface OfLine {
  readonly move: MoveIndex;
  readonly line: number;
}

/** What is to be kept (an index in `Job.keeps`) while a unit is done. */
export interface OfKeep {
  readonly move: MoveIndex;
  readonly keep: number;
}

/** What is judged: a line, something watched during it, or what is to be kept. */
export type Target = (OfLine & { readonly watch?: number }) | OfKeep;

/** `at` is wall time in milliseconds, so that a device that slept counts right. No two entries have one `id`, whatever tablets they are from. */
export type Entry = Happening & { readonly at: number; readonly id: string };

/** The entries with one more. */
export function noted(
  entries: readonly Entry[],
  happening: Happening,
  { at, device }: { readonly at: number; readonly device: string },
): readonly Entry[] {
  const id = `${device}-${at.toString(36)}-${entries.length}`;
  return [...entries, { ...happening, ...(happening.type === 'undo' && { of: newest(entries) }), at, id }];
}

/** What has answered itself goes with what it followed from. */
function newest(entries: readonly Entry[]): readonly string[] {
  const counting = standing(entries).filter(({ type }) => !stays.has(type));
  let last = counting.length - 1;
  while (last > 0 && followsByItself(counting[last] as Entry)) last--;
  return counting.slice(Math.max(last, 0)).map(({ id }) => id);
}

/** What tells how the record came about is not taken back. */
const stays: ReadonlySet<Entry['type']> = new Set(['read-in', 'settle', 'loaded']);

/** The entries that still count. */
export function standing(entries: readonly Entry[]): readonly Entry[] {
  const again = saidAgain(entries);
  return marked(entries)
    .filter(({ undone, entry }) => !undone && entry.type !== 'undo' && !again.has(entry.id))
    .map(({ entry }) => entry);
}

/** Of each pair the one that stands later, so that what follows the first in its own record still does. */
function saidAgain(entries: readonly Entry[]): ReadonlySet<string> {
  const pairs = entries.flatMap((entry) => (entry.type === 'read-in' ? (entry.same ?? []) : []));
  if (pairs.length === 0) return new Set();
  const order = new Map(entries.map(({ id }, index) => [id, index]));
  const orderOf = (id: string) => order.get(id) ?? Number.POSITIVE_INFINITY;
  return new Set(pairs.flatMap((ids) => [...ids].sort((one, next) => orderOf(one) - orderOf(next)).slice(1)));
}

/** Each entry, and whether it was taken back later. */
export function marked(entries: readonly Entry[]): readonly { readonly entry: Entry; readonly undone: boolean }[] {
  const undone = new Set(
    entries.flatMap((entry) => (entry.type === 'undo' || entry.type === 'settle' ? (entry.of ?? []) : [])),
  );
  return entries.map((entry) => ({ entry, undone: undone.has(entry.id) }));
}

export function followsByItself(entry: Entry): boolean {
  return (entry.type === 'check' && entry.late === true) || ('from' in entry && entry.from !== undefined);
}

// ---------------------------------------------------------------- kept

const format = 'cardwright work record';

/** What a record says about the card it is of. */
export interface OfCard {
  readonly id: string;
  readonly number: string;
  readonly revision: string;
  readonly title: string;
  /** Of the page, where it is known. */
  readonly digest?: string;
}

export interface RecordFile {
  readonly format: typeof format;
  readonly version: 1;
  readonly card: OfCard;
  readonly entries: readonly Entry[];
  /** Of card and entries. */
  readonly digest?: string;
}

export function recordOf({ id, number, revision, title }: Job, entries: readonly Entry[], digest?: string): RecordFile {
  return {
    format,
    version: 1,
    card: { id, number, revision, title, ...(digest !== undefined && { digest }) },
    entries,
  };
}

export type FileContent =
  | RecordFile
  | { readonly fault: 'broken' }
  | { readonly fault: 'foreign'; readonly card: Partial<OfCard> };

/** Reads what `recordOf` made, from a device or a file that anybody may have changed. */
export function fromFile(text: string, job: Job): FileContent {
  const content = parsed(text);
  if (!isRecord(content) || content.format !== format || !isRecord(content.card)) return { fault: 'broken' };
  const card = Object.fromEntries(Object.entries(content.card).filter(([, value]) => isText(value))) as Partial<OfCard>;
  if (card.id !== job.id) return { fault: 'foreign', card };
  const { entries, digest } = content;
  const isWhole = Array.isArray(entries) && entries.every((entry) => isEntry(entry, job));
  return isWhole && isOptional(digest, isText) ? (content as unknown as RecordFile) : { fault: 'broken' };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

type Fields = Readonly<Record<string, unknown>>;

function isRecord(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const isText = (value: unknown) => typeof value === 'string';
const isNumber = (value: unknown) => isText(value) && /^-?\d{1,20}(\.\d{1,20})?$/.test(value as string);
const isFlag = (value: unknown) => typeof value === 'boolean';
const isIndex = (value: unknown) => Number.isInteger(value) && (value as number) >= 0;
const isListOf = (value: unknown, is: (one: unknown) => boolean) => Array.isArray(value) && value.every(is);
const isTexts = (value: unknown, count?: number) =>
  Array.isArray(value) && (count === undefined || value.length === count) && value.every(isText);
const isOptional = (value: unknown, is: (value: unknown) => boolean) => value === undefined || is(value);

const isMachine = (machine: unknown, { variants }: Job) =>
  Array.isArray(machine) &&
  machine.length === variants.length &&
  machine.every((value, index) => isIndex(value) && value < (variants[index]?.values.length ?? 0));

function isEntry(entry: unknown, job: Job): boolean {
  if (!isRecord(entry) || !Number.isFinite(entry.at) || !isText(entry.id)) return false;
  const isMove = (value: unknown) => isIndex(value) && (value as number) < job.moves.length;
  const unit = isMove(entry.move) ? job.moves[entry.move as number] : undefined;
  const isLine = unit?.type === 'unit' && isIndex(entry.line) && (entry.line as number) < unit.lines.length;
  const isKeep = unit?.type === 'unit' && isIndex(entry.keep) && (entry.keep as number) < job.keeps.length;
  switch (entry.type) {
    case 'open':
      return unit?.type === 'unit' && isText(entry.reason);
    case 'leave-out':
      return unit?.type === 'unit' && isText(entry.reason) && isOptional(entry.name, isText);
    case 'tick':
      return unit?.type === 'unit' && isOptional(entry.reason, isText) && isOptional(entry.name, isText);
    case 'check':
      return isLine && isFlag(entry.passed) && isOptional(entry.from, isText) && isOptional(entry.late, isFlag);
    case 'reading':
      return (
        isLine &&
        isText(entry.value) &&
        isIndex(entry.unit) &&
        isOptional(entry.limit, isIndex) &&
        isOptional(entry.inside, isFlag) &&
        isOptional(entry.number, isNumber) &&
        isOptional(entry.parts, isText)
      );
    case 'note':
      return isLine && isText(entry.value);
    case 'fields':
      return isLine && Array.isArray(entry.values) && entry.values.every(isText) && isOptional(entry.passed, isFlag);
    case 'sign':
      return isLine && isText(entry.name) && isOptional(entry.by, isText);
    case 'begin':
    case 'end':
    case 'did':
      return isLine && isOptional(entry.reason, isText);
    case 'watch':
      return isLine && isIndex(entry.watch) && isFlag(entry.passed) && isOptional(entry.from, isText);
    case 'keep':
      return isKeep && isFlag(entry.passed) && isOptional(entry.from, isText);
    case 'anyway':
      return (isKeep || (isLine && isOptional(entry.watch, isIndex))) && isText(entry.reason) && isText(entry.name);
    case 'answer':
      return unit?.type === 'ask' && isFlag(entry.yes) && isOptional(entry.from, isText);
    case 'choose':
      return unit?.type === 'choose' && isIndex(entry.way) && (entry.way as number) < unit.ways.length;
    case 'exit':
      return unit !== undefined && isMove(entry.to) && isText(entry.text);
    case 'stop':
      return true;
    case 'why-stopped':
      return isText(entry.reason);
    case 'head':
      return (
        isTexts(entry.values, job.head.length) &&
        isTexts(entry.names, Math.max(job.roles.length, 1)) &&
        isMachine(entry.machine, job)
      );
    case 'hand-over':
      return isText(entry.from) && isText(entry.to) && isText(entry.remarks);
    case 'finish':
      return isTexts(entry.fields, job.record.fields.length);
    case 'read-in':
      return (
        isIndex(entry.count) &&
        isListOf(entry.conflicts, isConflict) &&
        isOptional(entry.same, (same) => isListOf(same, (pair) => isTexts(pair, 2)))
      );
    case 'settle':
      return isTexts(entry.of) && isText(entry.name);
    case 'loaded':
      return ['changed', 'other-copy', 'unchecked'].includes(entry.doubt as string);
    case 'undo':
      return isTexts(entry.of);
    default:
      return false;
  }
}

function isConflict(value: unknown): boolean {
  return isListOf(value, (ids) => isTexts(ids)) && (value as unknown[]).length === 2;
}
