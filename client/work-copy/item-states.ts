/** In which state the work has put or found each item, by the item's number in the job. */
import type { JobLine, MoveIndex } from '../../shared/job.ts';
import type { Stands } from './state.ts';

/** Where something was done, and when. */
interface Done {
  readonly move: MoveIndex;
  readonly at: number;
}

interface Place {
  readonly move: MoveIndex;
  readonly line: number;
}

export class ItemStates {
  readonly #stands = new Map<number, Stands>();
  readonly #set = new Set<number>();
  /** What was before a run, by its place. */
  readonly #before = new Map<string, ReadonlyMap<number, Stands | undefined>>();

  now() {
    return { stands: new Map(this.#stands), set: new Set(this.#set) };
  }

  bring(line: JobLine | undefined, { move, at }: Done): void {
    for (const { item, state } of line?.brings ?? []) {
      this.#stands.set(item, { state, move, at });
      if (line?.type !== 'check') this.#set.add(item);
    }
  }

  /** What is not as it must be is in nobody knows which state. */
  checked(line: JobLine | undefined, check: Done & { readonly passed: boolean }): void {
    if (line?.type !== 'check') return;
    if (check.passed) this.bring(line, check);
    else for (const { item } of line.brings ?? []) this.#stands.delete(item);
  }

  begin(line: JobLine | undefined, run: Done & Place): void {
    if (line?.type !== 'run') return;
    this.#before.set(keyOf(run), new Map((line.brings ?? []).map(({ item }) => [item, this.#stands.get(item)])));
    this.bring(line, run);
  }

  /** After a run an item is as it was. */
  end(run: Place): void {
    for (const [item, before] of this.#before.get(keyOf(run)) ?? []) {
      if (before === undefined) this.#stands.delete(item);
      else this.#stands.set(item, before);
    }
    this.#before.delete(keyOf(run));
  }
}

const keyOf = ({ move, line }: Place) => `${move} ${line}`;
