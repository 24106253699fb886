/** Things on the screen that change with time. Wall time is asked each time, so that a device that slept shows the right time at once. */

/** Called several times a second with the wall time. */
type Clock = (now: number) => void;

const interval = 200;

export class Clocks {
  private clocks: Clock[] = [];

  constructor(private readonly now: () => number) {
    setInterval(() => this.run(), interval);
    document.addEventListener('visibilitychange', () => this.run());
  }

  add(clock: Clock): void {
    this.clocks.push(clock);
    clock(this.now());
  }

  clear(): void {
    this.clocks = [];
  }

  private run(): void {
    const now = this.now();
    for (const clock of this.clocks) clock(now);
  }
}
