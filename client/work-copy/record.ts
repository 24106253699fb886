/** The record of a job: its entries as rows of when, where and what. */
import type { Job, JobLine, MoveIndex } from '../../shared/job.ts';
import { type Entry, marked } from './entries.ts';
import type { Speech } from './words.ts';

export interface Row {
  readonly at: number;
  readonly where: string;
  readonly what: string;
  /** It was taken back later. */
  readonly undone: boolean;
}

export function recordRows(job: Job, entries: readonly Entry[], speech: Speech): readonly Row[] {
  return marked(entries).map(({ entry, undone }) => ({
    at: entry.at,
    where: whereOf(job, entry),
    what: whatOf(job, entry, speech),
    undone,
  }));
}

function whereOf(job: Job, entry: Entry): string {
  if (!('move' in entry)) return '';
  const move = job.moves[entry.move];
  if (move?.type === 'unit') return [move.name, move.who].filter(Boolean).join(', ');
  return move?.type === 'ask' ? move.text : '';
}

function whatOf(job: Job, entry: Entry, speech: Speech): string {
  const { say } = speech;

  switch (entry.type) {
    case 'open':
      return `${say('outOfOrder')} ${entry.reason}`;
    case 'tick':
      return withReason(say('done'), entry.reason, speech);
    case 'leave-out':
      return withReason(say('leftOut'), entry.reason, speech);
    case 'check':
      return `${textOf(job, entry)} ${say(entry.passed ? 'passed' : 'failed')}.`;
    case 'reading':
      return readingText(job, entry, speech);
    case 'note':
      return `${textOf(job, entry)} ${entry.value} ${unitOf(lineAt(job, entry))}`.trim();
    case 'fields':
      return `${textOf(job, entry)} ${fieldTexts(lineAt(job, entry), entry.values).join('; ')}`;
    case 'sign':
      return `${textOf(job, entry)} ${say('signedBy', { name: entry.name })}`;
    case 'begin':
      return withReason(`${say('begin')}: ${textOf(job, entry)}`, entry.reason, speech);
    case 'end':
      return withReason(`${say('end')}: ${textOf(job, entry)}`, entry.reason, speech);
    case 'watch': {
      const line = lineAt(job, entry);
      const text = line?.type === 'run' ? (line.watches[entry.watch]?.text ?? '') : '';
      return `${text} ${say(entry.passed ? 'didReach' : 'failed')}.`;
    }
    case 'anyway':
      return withReason(say('goOnAnyway'), entry.reason, speech);
    case 'answer':
      return say(entry.yes ? 'yes' : 'no');
    case 'choose': {
      const move = job.moves[entry.move];
      return move?.type === 'choose' ? `${say('choose')}: ${move.ways[entry.way]?.text ?? ''}` : '';
    }
    case 'exit':
      return entry.text;
    case 'stop':
      return withReason(say('stopped'), entry.reason, speech);
    case 'finish':
      return say('finished');
    case 'undo':
      return say('undo');
  }
}

/** A text and its reason, as two sentences. */
function withReason(text: string, reason: string | undefined, { say }: Speech): string {
  return reason ? `${text.replace(/[.:]\s*$/, '')}. ${say('reason')}: ${reason}` : text;
}

function readingText(job: Job, entry: Extract<Entry, { type: 'reading' }>, { say }: Speech): string {
  const line = lineAt(job, entry);
  if (line?.type !== 'reading') return entry.value;
  const value = `${entry.value} ${line.units[entry.unit] ?? ''}`.trim();
  const limit = line.limits[entry.limit ?? 0];
  if (entry.inside === undefined || limit === undefined) return `${line.text} ${value}`;
  return `${line.text} ${say(entry.inside ? 'inside' : 'outside', { value, limit: limit.text })}`;
}

/** `Batch: 17`, for each field that was filled in. */
export function fieldTexts(line: JobLine | undefined, values: readonly string[]): readonly string[] {
  if (line?.type !== 'fields') return values;
  return line.fields.flatMap(({ label, unit }, index) => {
    const value = values[index];
    return value ? [`${label}: ${value}${unit ? ` ${unit}` : ''}`] : [];
  });
}

function lineAt(job: Job, { move, line }: { move: MoveIndex; line: number }): JobLine | undefined {
  const unit = job.moves[move];
  return unit?.type === 'unit' ? unit.lines[line] : undefined;
}

const textOf = (job: Job, entry: { move: MoveIndex; line: number }) => lineAt(job, entry)?.text ?? '';
const unitOf = (line: JobLine | undefined) => (line?.type === 'record' ? (line.unit ?? '') : '');
