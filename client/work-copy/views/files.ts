/** Saving the record as a file, and loading one. */
import type { Job } from '../../../shared/job.ts';
import { element } from '../dom.ts';
import { type Entry, type FileContent, fromFile, toFile } from '../entries.ts';

export function saveFile(job: Job, entries: readonly Entry[], now: number): void {
  const address = URL.createObjectURL(new Blob([toFile(job, entries)], { type: 'application/json' }));
  const day = new Date(now).toISOString().slice(0, 10);
  const name = `${job.number || job.title}-${day}.json`.replace(/[^\p{L}\p{N}.-]+/gu, '-');
  element('a', { attributes: { href: address, download: name } }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Lets the user choose a file and gives what is in it. */
export function chooseFile(job: Job, take: (content: FileContent) => void): HTMLInputElement {
  const input = element('input', { attributes: { type: 'file', accept: '.json,application/json' } });
  input.addEventListener('change', () => {
    const [file] = Array.from(input.files ?? []);
    input.value = '';
    if (file)
      void file.text().then(
        (text) => take(fromFile(text, job)),
        () => take({ fault: 'broken' }),
      );
  });
  return input;
}
