/** The record of the work as the settings ask for it, and what is asked of each job before its first step. */
import type { JobRecord, RecordField } from '../../shared/job.ts';
import type { Context } from './context.ts';
import type { BackWords } from './language/words.ts';

type Word = Exclude<keyof BackWords, 'inFile' | 'changesSince'>;
type NamedField = readonly [Word, RecordField['sort']];

const neutral: readonly NamedField[] = [
  ['workDone', 'work'],
  ['dateCompleted', 'date'],
  ['doneBy', 'name'],
  ['signature', 'hand'],
  ['remarks', 'text'],
];

/** The entries that 14 CFR 43.9(a) asks for: the work, the date, who did it, and signature, number and kind of certificate. */
const aviation: readonly NamedField[] = [
  ['workDone', 'work'],
  ['dateCompleted', 'date'],
  ['doneBy', 'name'],
  ['approvedBy', 'hand'],
  ['certificate', 'text'],
  ['remarks', 'text'],
];

export function recordForm({ input: { settings }, words: { back, heading } }: Context): JobRecord {
  const form = settings.record;
  const named = (fields: readonly NamedField[]) =>
    fields.map(([word, sort]): RecordField => ({ text: back[word], sort }));
  if (form === 'neutral') return { title: heading.record, meaning: '', fields: named(neutral) };
  if (form === '14 CFR 43.9') return { title: heading.record, meaning: back.aviationMeaning, fields: named(aviation) };
  return {
    title: form.title ?? heading.record,
    meaning: form.meaning ?? '',
    fields: [
      ...(form.fields ?? []).map((text): RecordField => ({ text, sort: 'text' })),
      { text: back.dateCompleted, sort: 'date' },
      ...(form.signatures ?? []).map((text): RecordField => ({ text, sort: 'hand' })),
    ],
  };
}

export function jobHead({ words: { back } }: Context): readonly string[] {
  return [back.workOrder, back.machine, back.station];
}
