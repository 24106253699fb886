/** Saving the record as a file, and loading one: what is here is never lost by it, and what nobody can vouch for is said. */
import { dayOf } from '../../../shared/day.ts';
import { largestText } from '../../../shared/file-sizes.ts';
import type { Job } from '../../../shared/job.ts';
import { button, element } from '../dom.ts';
import { type Doubt, type Entry, type FileContent, fromFile, type OfCard, type RecordFile } from '../entries.ts';
import { doubtText, type Speech } from '../words.ts';

export function saveFile(job: Job, record: RecordFile, now: number): void {
  const address = URL.createObjectURL(new Blob([JSON.stringify(record)], { type: 'application/json' }));
  const name = `${job.number || job.title}-${dayOf(now)}.json`.replace(/[^\p{L}\p{N}.-]+/gu, '-');
  element('a', { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Lets the user choose a file and gives what is in it. */
export function chooseFile(job: Job, take: (content: FileContent) => void): HTMLInputElement {
  const input = element('input', { type: 'file', accept: '.json,application/json' });
  input.addEventListener('change', () => {
    const [file] = Array.from(input.files ?? []);
    input.value = '';
    if (file) void contentOf(file, job).then(take);
  });
  return input;
}

/** A file that is too large to be a record is not read: a tablet would stand still. */
async function contentOf(file: File, job: Job): Promise<FileContent> {
  const text = file.size > largestText ? '' : await file.text().catch(() => '');
  return fromFile(text, job);
}

/** Which card a record is of that is not of this one. */
export function foreignText(job: Job, card: Partial<OfCard>, { say }: Speech): string {
  const isSameCard = card.number === job.number && (job.number !== '' || card.title === job.title);
  if (!isSameCard) return say('loadForeign', { card: [card.number, card.title].filter(Boolean).join(' ') || '–' });
  if (card.revision === job.revision) return say('loadChangedCard');
  return say('loadRevision', { other: card.revision || '–', own: job.revision || '–' });
}

interface Choices {
  readonly readIn: () => void;
  readonly replace: () => void;
  readonly cancel: () => void;
}

/** Asks what becomes of a file where something speaks against just loading it. */
export function askLoad(
  doubt: Doubt | undefined,
  here: readonly Entry[],
  speech: Speech,
  { readIn, replace, cancel }: Choices,
): HTMLElement {
  const { say } = speech;
  const last = here[here.length - 1];
  const texts = [
    ...(doubt ? [doubtText(doubt, speech)] : []),
    ...(last
      ? [say('loadOver', { count: here.length, time: `${speech.day(last.at)} ${speech.timeOfDay(last.at)}` })]
      : []),
  ];
  return element(
    'div',
    { class: 'load-question', role: 'alertdialog', 'aria-label': say('load') },
    ...texts.map((text) => element('p', { class: 'question' }, text)),
    element(
      'div',
      { class: 'buttons' },
      // What nobody can vouch for is not what a thumb should find first.
      ...(last ? [button(say('readIn'), readIn, { class: doubt ? '' : 'main' })] : []),
      button(say(last ? 'loadInPlace' : 'loadAnyway'), replace),
      button(say('cancel'), cancel),
    ),
  );
}
