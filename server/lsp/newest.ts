/** The newest version wins: work that was begun for an older state of the texts ends when it next gives way. */
import { type Cancellation, Cancelled } from '../../shared/cancel.ts';

/** The longest time in milliseconds for which work keeps the editor waiting. */
const longestTurn = 10;

/** Passed to long work, which asks `giveWay` between its parts. */
export interface Turn extends Cancellation {
  /** Lets other messages be read when the turn has been long enough; throws `Cancelled` where the work is not wanted any more. */
  readonly giveWay: () => Promise<void>;
}

/** A turn of work that ends when `isCancelled` says so. */
function makeTurn(isCancelled: () => boolean): Turn {
  let began = performance.now();
  return {
    get cancelled() {
      return isCancelled();
    },
    async giveWay() {
      if (performance.now() - began >= longestTurn) {
        await nextMessage();
        began = performance.now();
      }
      if (isCancelled()) throw new Cancelled();
    },
  };
}

/** Runs one piece of work at a time: a new one cancels the one before it. */
export class Newest {
  private generation = 0;

  /** True where the work came to its end, false where newer work took its place. */
  async run(work: (turn: Turn) => Promise<void>): Promise<boolean> {
    const own = ++this.generation;
    const turn = makeTurn(() => own !== this.generation);
    try {
      await nextMessage();
      await turn.giveWay();
      await work(turn);
      return true;
    } catch (error) {
      if (error instanceof Cancelled) return false;
      throw error;
    }
  }

  /** Ends the work that runs; what waits for it learns that it did not come to its end. */
  cancel(): void {
    this.generation++;
  }
}

/** After the messages that have arrived by now. */
export function nextMessage(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
