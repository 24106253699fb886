/** The words of the work copy, filled in, and times and numbers in the language of the card. */
import type { Job, JobWord } from '../../shared/job.ts';
import type { Doubt } from './entries.ts';

export interface Speech {
  say(word: JobWord, values?: Readonly<Record<string, string | number>>): string;
  /** `Batch: 17`, with the colon as the language sets it. */
  labelled(label: string, text: string): string;
  /** `10:42:05` */
  timeOfDay(at: number): string;
  day(at: number): string;
  /** `1:05`, `1:02:03` */
  duration(milliseconds: number): string;
  /** A decimal number with the point or comma of the language. */
  number(plain: string): string;
}

export function speech({ words, language }: Job): Speech {
  const time = new Intl.DateTimeFormat(language, {
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
    hour12: false,
  });
  const point = new Intl.NumberFormat(language).format(1.5).charAt(1);
  const date = new Intl.DateTimeFormat(language, { dateStyle: 'medium' });
  const say: Speech['say'] = (word, values = {}) =>
    words[word].replace(/\{(\w+)\}/g, (slot, name: string) => String(values[name] ?? slot));
  return {
    say,
    labelled: (label, text) => say('labelled', { label, text }),
    timeOfDay: (at) => time.format(at),
    day: (at) => date.format(at),
    duration,
    number: (plain) => plain.replace('.', point),
  };
}

/** Whose names are asked for. */
export const peopleOf = ({ roles }: Job, { say }: Speech): readonly string[] =>
  roles.length === 0 ? [say('name')] : roles.map((role) => `${say('name')} (${role})`);

const doubts = { changed: 'doubtChanged', 'other-copy': 'doubtOtherCopy', unchecked: 'doubtUnchecked' } as const;

export const doubtText = (doubt: Doubt, { say }: Speech): string => say(doubts[doubt]);

function duration(milliseconds: number): string {
  const seconds = Math.max(0, Math.floor(milliseconds / 1000));
  const two = (value: number) => String(value).padStart(2, '0');
  const minutes = Math.floor(seconds / 60);
  if (minutes < 60) return `${minutes}:${two(seconds % 60)}`;
  return `${Math.floor(minutes / 60)}:${two(minutes % 60)}:${two(seconds % 60)}`;
}
