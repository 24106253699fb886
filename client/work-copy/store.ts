/** Keeps the entries of a job on the device, as far as the device lets it. */
import type { Job } from '../../shared/job.ts';
import { type Entry, fromFile, toFile } from './entries.ts';

export interface Store {
  /** What is kept for this card; empty where there is nothing, or nothing that can be read. */
  load(): readonly Entry[];
  /** False where the device does not keep it. */
  save(entries: readonly Entry[]): boolean;
  /** Called when another window of this browser changed what is kept for this card. */
  onChange(listener: () => void): void;
}

export function openStore(job: Job, view: Window): Store {
  const key = `cardwright ${job.id}`;
  return {
    load() {
      try {
        const kept = view.localStorage.getItem(key);
        const content = kept === null ? undefined : fromFile(kept, job);
        return content && 'entries' in content ? content.entries : [];
      } catch {
        // A browser that forbids storage throws here; `save` then says so to the user.
        return [];
      }
    },
    save(entries) {
      try {
        if (entries.length === 0) view.localStorage.removeItem(key);
        else view.localStorage.setItem(key, toFile(job, entries));
        return true;
      } catch {
        return false;
      }
    },
    onChange(listener) {
      view.addEventListener('storage', (event) => {
        if (event.key === key || event.key === null) listener();
      });
    },
  };
}
