/** The newest version wins: work that was begun for an older state of the texts ends when it next gives way. */
import type { InParts } from '../../shared/parts.ts';

/** The longest time in milliseconds for which work keeps the editor waiting. */
const longestTurn = 5;

/** Thrown by work that is not wanted any more; whoever started the work catches it. */
export class Cancelled extends Error {
  constructor() {
    super('cancelled');
  }
}

/** Passed to long work, which asks it between its parts. */
export interface Turn {
  /** Other messages have waited long enough. */
  readonly isLong: () => boolean;
  /** Lets other messages be read when the turn has been long enough; throws `Cancelled` where the work is not wanted any more. */
  readonly giveWay: () => Promise<void>;
}

/** A turn of work that ends when `isCancelled` says so. */
export function makeTurn(isCancelled: () => boolean): Turn {
  let began = performance.now();
  const isLong = () => performance.now() - began >= longestTurn;
  return {
    isLong,
    async giveWay() {
      if (isLong()) {
        await nextMessage();
        began = performance.now();
      }
      if (isCancelled()) throw new Cancelled();
    },
  };
}

/** Does the parts of work one after the other, and gives way between them. */
export async function doInTurns<Result>(work: InParts<Result>, turn: Turn): Promise<Result> {
  for (;;) {
    const part = work.next();
    if (part.done) return part.value;
    if (turn.isLong()) await turn.giveWay();
  }
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

/** A message is read, decoded, handed on, answered and written in rounds of the event loop of their own, with one or two between. */
const roundsOfMessage = 7;

/** After the messages that have arrived by now. */
export async function nextMessage(): Promise<void> {
  for (let round = 0; round < roundsOfMessage; round++) await nextRound();
}

/** A browser has no `setImmediate`, and its timers wait for 4 ms each. */
const nextRound: () => Promise<void> =
  typeof setImmediate === 'function' ? () => new Promise((resolve) => setImmediate(resolve)) : messageToItself();

function messageToItself(): () => Promise<void> {
  const { port1, port2 } = new MessageChannel();
  const waiting: (() => void)[] = [];
  port1.onmessage = () => waiting.shift()?.();
  return () =>
    new Promise((resolve) => {
      waiting.push(resolve);
      port2.postMessage(undefined);
    });
}
