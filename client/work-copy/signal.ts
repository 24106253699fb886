/** The signal at the end of a rest, a run or a wait: seen, heard and felt, each where the device can. */

const beeps = 3;
const beepSeconds = 0.18;
const pitch = 880;

export class Signal {
  #sound: AudioContext | undefined;
  readonly #given = new Set<string>();

  constructor(private readonly live: HTMLElement) {}

  /** Browsers let a page make sounds only after somebody touched it. */
  prepare(): void {
    if (this.#sound === undefined && typeof AudioContext !== 'undefined') this.#sound = new AudioContext();
    void this.#sound?.resume();
  }

  /** Only seen, and read out. */
  say(text: string): void {
    this.live.textContent = text;
  }

  /** What was said is about what was before. */
  end(): void {
    this.say('');
    this.live.classList.remove('signals');
  }

  /** Once for each occasion, however often it is asked for. */
  give(occasion: string, text: string): void {
    if (this.#given.has(occasion)) return;
    this.#given.add(occasion);
    this.say(text);
    this.live.classList.add('signals');
    setTimeout(() => this.live.classList.remove('signals'), 5000);
    this.#beep();
    navigator.vibrate?.([300, 150, 300, 150, 300]);
  }

  #beep(): void {
    const sound = this.#sound;
    if (sound === undefined) return;
    for (let index = 0; index < beeps; index++) {
      const start = sound.currentTime + index * beepSeconds * 2;
      const tone = sound.createOscillator();
      tone.frequency.value = pitch;
      tone.connect(sound.destination);
      tone.start(start);
      tone.stop(start + beepSeconds);
    }
  }
}
