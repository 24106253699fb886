/** Things on the screen that change with time. Wall time is asked each time, so that a device that slept shows the right time at once. */

/** Called several times a second with the wall time. */
type Clock = (now: number) => void;

const interval = 200;

/** A clock that is put right by less, as devices do by themselves, was not set back. */
const noticeable = 1_000;

/** Wall time for as long as the page is open. Where somebody sets the device's clock back it goes on from where it was, so that what runs or rests is not timed anew. */
export class WallTime {
  #last = 0;
  #ahead = 0;

  constructor(private readonly onSetBack: () => void) {}

  now(): number {
    const time = Date.now() + this.#ahead;
    const back = this.#last - time;
    if (back > noticeable) {
      this.#ahead += back;
      this.onSetBack();
    }
    this.#last = Math.max(this.#last, time);
    return this.#last;
  }
}

export class Clocks {
  #clocks: Clock[] = [];

  constructor(private readonly now: () => number) {
    setInterval(() => this.#run(), interval);
    document.addEventListener('visibilitychange', () => this.#run());
  }

  add(clock: Clock): void {
    this.#clocks.push(clock);
    clock(this.now());
  }

  clear(): void {
    this.#clocks = [];
  }

  #run(): void {
    const now = this.now();
    for (const clock of this.#clocks) clock(now);
  }
}
