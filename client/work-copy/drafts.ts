/** What is typed at the lines of the card and not yet entered: it is not lost when the page shows something new, and counts when its step is done. */
import type { MoveIndex } from '../../shared/job.ts';
import type { Happening, OfLine } from './entries.ts';

/** What is typed as an entry; undefined where it cannot be one, which the page then says. */
export type Take = () => Happening | undefined;

export class Drafts {
  readonly #texts = new Map<string, string>();
  #takes: { readonly move: MoveIndex; readonly key: string; readonly take: Take; readonly isReady: boolean }[] = [];

  /** `part` tells the fields of one line apart. */
  text(at: OfLine, part = 0): string | undefined {
    return this.#texts.get(keyOf(at, part));
  }

  type(at: OfLine, text: string, part = 0): void {
    this.#texts.set(keyOf(at, part), text);
  }

  /** What is shown now can be taken like this; what is ready counts though nobody typed it. */
  offer(at: OfLine, take: Take, isReady = false): void {
    this.#takes.push({ move: at.move, key: keyOf(at, ''), take, isReady });
  }

  /** The page is shown anew. */
  withdraw(): void {
    this.#takes = [];
  }

  /** What is typed at a unit, as entries; undefined where something of it cannot be entered. */
  take(move: MoveIndex): readonly Happening[] | undefined {
    const typed = this.#takes.filter(
      ({ move: own, key, isReady }) =>
        own === move && (isReady || [...this.#texts.keys()].some((text) => text.startsWith(key))),
    );
    const taken = typed.map(({ take }) => take());
    return taken.includes(undefined) ? undefined : (taken as readonly Happening[]);
  }

  /** What happened makes an end of what was typed there. */
  forget(happening: Happening): void {
    if (!('move' in happening)) return;
    const isOver = !('line' in happening) && happening.type !== 'open';
    const start = isOver ? `${happening.move} ` : 'line' in happening ? keyOf(happening, '') : undefined;
    if (start === undefined || happening.type === 'begin' || happening.type === 'end') return;
    for (const key of this.#texts.keys()) if (key.startsWith(start)) this.#texts.delete(key);
  }
}

const keyOf = ({ move, line }: OfLine, part: number | '') => `${move} ${line} ${part}`;
