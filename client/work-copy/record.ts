/** The record of a job: its entries as rows of when, where and what. */
import type { Job, JobLine, MoveIndex } from '../../shared/job.ts';
import { capital } from '../../shared/text.ts';
import { answersTo, answersToWatch } from './answers.ts';
import type { Entry } from './entries.ts';
import { withWho } from './follow.ts';
import { named, sharedName } from './people.ts';
import { longestRun } from './rests.ts';
import { noEntry, type Walk, type WentOn } from './state.ts';
import { walked } from './walk.ts';
import { doubtText, peopleOf, type Speech } from './words.ts';

export interface Row {
  /** Of its entry. */
  readonly id: string;
  readonly at: number;
  readonly where: string;
  readonly what: string;
  /** It was taken back later. */
  readonly undone: boolean;
}

export function recordRows(job: Job, entries: readonly Entry[], speech: Speech): readonly Row[] {
  const over = overtimes(job, entries, speech);
  return named(entries).map(({ entry, undone, names }) => {
    const shared = entry.type === 'head' || entry.type === 'hand-over' ? sharedName(names) : undefined;
    const more = shared === undefined ? (over.get(entry) ?? []) : [speech.say('onePersonDoes', { name: shared })];
    const what = [whatOf(job, entry, speech), ...more.map(capital)].map(ended).join(' ');
    return { id: entry.id, at: entry.at, where: whereOf(job, entry, names), what, undone };
  });
}

/** The one of `Job.head` that says which machine it is. */
export const machineField = 1;

/** The variants that are the number of a machine: it is chosen there, and not written down once more. */
export function numbered({ variants }: Job): readonly number[] {
  return variants.flatMap(({ values }, index) => (values.every((value) => /^\d+$/.test(value)) ? [index] : []));
}

export function headLabels(job: Job, { say }: Speech): readonly string[] {
  return numbered(job).length === 0 ? job.head : job.head.with(machineField, say('machineType'));
}

/** What was entered before the first step, each with its label. */
export function headRows(
  job: Job,
  { values, machine, names }: Extract<Entry, { type: 'head' }>,
  speech: Speech,
): readonly (readonly [string, string | undefined])[] {
  const chosen = job.variants.map((variant, index) => variant.values[machine[index] ?? -1]);
  const labels = [...headLabels(job, speech), ...job.variants.map(({ label }) => label), ...peopleOf(job, speech)];
  const entered = [...values, ...chosen, ...names];
  return labels.map((label, index) => [label, entered[index]]);
}

/** What went on for longer than it may, said where it ended. */
function overtimes(job: Job, entries: readonly Entry[], speech: Speech): ReadonlyMap<Entry, readonly string[]> {
  const found = new Map<Entry, string[]>();
  for (const { entry, before, after } of walked(job, entries)) {
    const said = job.duties.flatMap(({ label, duties }, index) => {
      const limit = longestRun(duties);
      return (after.uses[index] ?? []).flatMap((use, count) => {
        const isNew = use.to !== undefined && before.uses[index]?.[count]?.to === undefined;
        const over = isNew && limit !== undefined ? (use.to as number) - use.from - limit : 0;
        return over > 0 ? [speech.say('itemTooLongBy', { item: label, time: speech.duration(over + 999) })] : [];
      });
    });
    found.set(entry, said.length > 0 ? said : overLine(job, entry, after, speech));
  }
  return found;
}

/** Where no duty was overrun, the time that the card gives to a run, a wait or what is brought about may have been. */
function overLine(job: Job, entry: Entry, { lines }: Walk, { say, duration }: Speech): string[] {
  if (entry.type !== 'end' && entry.type !== 'reading') return [];
  const line = lineAt(job, entry);
  const { began, ended, late } = lines.get(entry.move)?.get(entry.line) ?? noEntry;
  if (typeof late === 'number') return [say('tooLate', { time: duration(late + 999) })];
  const most = line?.type === 'run' || line?.type === 'wait' ? line.most : undefined;
  const over = began === undefined || ended === undefined || most === undefined ? 0 : ended - began - most;
  return over >= 1000 ? [say('itemTooLongBy', { item: line?.text ?? '', time: duration(over) })] : [];
}

/** `Step 12, Fitter, R. Vogel` */
export function whereOf(job: Job, entry: Entry, names: readonly string[]): string {
  if (!('move' in entry)) return '';
  const move = job.moves[entry.move];
  if (move?.type === 'unit') {
    const people = move.by.length === 0 ? names : move.by.map((role) => names[role] ?? '');
    return [...new Set([withWho(move), ...people])].filter(Boolean).join(', ');
  }
  return move?.type === 'ask' ? move.text : '';
}

function whatOf(job: Job, entry: Entry, speech: Speech): string {
  const { say } = speech;

  switch (entry.type) {
    case 'open':
      return `${say('outOfOrder')} ${entry.reason}`;
    case 'tick':
    case 'leave-out': {
      const done = say(entry.type === 'tick' ? 'done' : 'leftOut');
      const { reason = '', name } = entry;
      return name === undefined
        ? withReason(done, reason, speech)
        : `${done}. ${wentOnText({ reason, name, isUnchecked: true }, speech)}`;
    }
    case 'did':
      return withReason(`${textOf(job, entry)} ${say('done')}.`, entry.reason, speech);
    case 'check': {
      const [good, bad] = answersTo(lineAt(job, entry));
      if (entry.late) return `${textOf(job, entry)} ${say('ranOut', { answer: say(bad) })}`;
      return `${textOf(job, entry)} ${answered(say(entry.passed ? good : bad), entry.from, speech)}`;
    }
    case 'reading':
      return readingText(job, entry, speech);
    case 'note':
      return `${textOf(job, entry)} ${entry.value} ${unitOf(lineAt(job, entry))}`.trim();
    case 'fields':
      return `${textOf(job, entry)} ${fieldTexts(lineAt(job, entry), entry.values, speech).join('; ')}`.trim();
    case 'sign':
      return `${textOf(job, entry)} ${signText(entry, speech)}`.trim();
    case 'begin':
      return withReason(speech.labelled(say('begin'), textOf(job, entry)), entry.reason, speech);
    case 'end':
      return withReason(speech.labelled(say('end'), textOf(job, entry)), entry.reason, speech);
    case 'watch': {
      const line = lineAt(job, entry);
      const watch = line?.type === 'run' ? line.watches[entry.watch] : undefined;
      const [good, bad] = answersToWatch(watch ?? {});
      return `${watch?.text ?? ''} ${answered(say(entry.passed ? good : bad), entry.from, speech)}`;
    }
    case 'keep':
      return `${job.keeps[entry.keep]?.text ?? ''} ${answered(say(entry.passed ? 'passed' : 'failed'), entry.from, speech)}`;
    case 'anyway':
      return wentOnText(entry, speech);
    case 'answer':
      return answered(say(entry.yes ? 'yes' : 'no'), entry.from, speech);
    case 'choose': {
      const move = job.moves[entry.move];
      return move?.type === 'choose' ? speech.labelled(say('choose'), move.ways[entry.way]?.text ?? '') : '';
    }
    case 'exit':
      return entry.text;
    case 'stop':
      return say('stopped');
    case 'why-stopped':
      return speech.labelled(say('reason'), entry.reason);
    case 'head':
      return headRows(job, entry, speech)
        .map(([label, value]) => `${speech.labelled(label, value || '–')}.`)
        .join(' ');
    case 'hand-over':
      return [say('handedOver', { from: entry.from, to: entry.to }), entry.remarks].filter(Boolean).join(' ');
    case 'finish':
      return say('recordMade');
    case 'read-in':
      return say('wasReadIn', { count: entry.count, conflicts: entry.conflicts.length });
    case 'settle':
      return say('settled', { name: entry.name });
    case 'loaded':
      return `${say('loaded')} ${doubtText(entry.doubt, speech)}`;
    case 'undo':
      return say('undo');
  }
}

function answered(answer: string, from: string | undefined, { say }: Speech): string {
  return from === undefined ? `${answer}.` : say('answeredFrom', { answer, from });
}

function signText({ name, by }: { readonly name: string; readonly by?: string }, { say }: Speech): string {
  return by === undefined ? say('signedBy', { name }) : say('inspectedBy', { name, by });
}

export function wentOnText(
  { reason, name, isUnchecked }: Pick<WentOn, 'reason' | 'name' | 'isUnchecked'>,
  { say }: Speech,
): string {
  return say(isUnchecked ? 'wentOnUnchecked' : 'wentOn', { reason: ended(reason), name });
}

const ended = (text: string) => (/[.!?…。]$/.test(text) ? text : `${text}.`);

/** A text and its reason, as two sentences. */
function withReason(text: string, reason: string | undefined, { say, labelled }: Speech): string {
  return reason ? `${text.replace(/\s*[.:]\s*$/, '')}. ${labelled(say('reason'), reason)}` : text;
}

function readingText(job: Job, entry: Extract<Entry, { type: 'reading' }>, { say }: Speech): string {
  const line = lineAt(job, entry);
  if (line?.type !== 'reading') return entry.value;
  const own = `${entry.value} ${line.units[entry.unit] ?? ''}`.trim();
  const value = entry.parts === undefined ? own : say('workedOutFrom', { value: own, parts: entry.parts });
  const limit = line.limits[entry.limit ?? 0];
  if (entry.inside === undefined || limit === undefined) return `${line.text} ${value}`;
  return `${line.text} ${say(entry.inside ? 'inside' : 'outside', { value, limit: limit.text })}`;
}

/** `Batch: 17`, for each field that was filled in. */
export function fieldTexts(
  line: JobLine | undefined,
  values: readonly string[],
  { labelled }: Speech,
): readonly string[] {
  if (line?.type !== 'fields') return values;
  return line.fields.flatMap(({ label, unit }, index) => {
    const value = values[index];
    return value ? [labelled(label, `${value}${unit ? ` ${unit}` : ''}`)] : [];
  });
}

function lineAt(job: Job, { move, line }: { move: MoveIndex; line: number }): JobLine | undefined {
  const unit = job.moves[move];
  return unit?.type === 'unit' ? unit.lines[line] : undefined;
}

const textOf = (job: Job, entry: { move: MoveIndex; line: number }) => lineAt(job, entry)?.text ?? '';
const unitOf = (line: JobLine | undefined) => (line?.type === 'record' ? (line.unit ?? '') : '');
