/** Keeps the entries of a job on the device, as far as the device lets it. */
import type { Job } from '../../shared/job.ts';
import { type Entry, fromFile, recordOf } from './entries.ts';

export interface Store {
  /** Tells the entries of this device from those of others. */
  readonly device: string;
  /** What is kept for this card; empty where there is nothing, or nothing that can be read. */
  load(slot?: Slot): readonly Entry[];
  /** False where the device does not keep it. */
  save(entries: readonly Entry[], slot?: Slot): boolean;
  /** Called when another window of this browser changed what is kept for this card. */
  onChange(listener: () => void): void;
}

/** The record that is worked on, and the one whose place it took. */
export type Slot = 'now' | 'before';

export function openStore(job: Job, view: Window): Store {
  const keyOf = (slot: Slot) => (slot === 'now' ? `cardwright ${job.id}` : `cardwright ${job.id} before`);
  return {
    device: deviceName(view),
    load(slot = 'now') {
      try {
        const kept = view.localStorage.getItem(keyOf(slot));
        const content = kept === null ? undefined : fromFile(kept, job);
        return content && 'entries' in content ? content.entries : [];
      } catch {
        // A browser that forbids storage throws here; `save` then says so to the user.
        return [];
      }
    },
    save(entries, slot = 'now') {
      try {
        if (entries.length === 0) view.localStorage.removeItem(keyOf(slot));
        else view.localStorage.setItem(keyOf(slot), JSON.stringify(recordOf(job, entries)));
        return true;
      } catch {
        return false;
      }
    },
    onChange(listener) {
      view.addEventListener('storage', (event) => {
        if (event.key === keyOf('now') || event.key === null) listener();
      });
    },
  };
}

/** A new one each time where the device keeps nothing: that parts no more than is needed. */
function deviceName(view: Window): string {
  const key = 'cardwright device';
  const made = Array.from(view.crypto.getRandomValues(new Uint8Array(4)), (byte) => byte.toString(36)).join('');
  try {
    const name = view.localStorage.getItem(key) ?? made;
    view.localStorage.setItem(key, name);
    return name;
  } catch {
    return made;
  }
}
