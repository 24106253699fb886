/** The last line of a terminal, which tells how far long work has come, and is wiped before anything else is written. */
const toBeginAndWipe = '\r\u001B[K';

export class StatusLine {
  private stands = false;

  /** Writes to the terminal; without it nothing is shown. */
  constructor(private readonly write: ((text: string) => void) | undefined) {}

  /** Says what is done with which of how many. One alone is not worth a line. */
  tell(doing: string, number: number, of: number): void {
    if (!this.write || of < 2) return;
    this.write(`${toBeginAndWipe}${doing} ${number} of ${of} …`);
    this.stands = true;
  }

  wipe(): void {
    if (this.stands) this.write?.(toBeginAndWipe);
    this.stands = false;
  }
}

/** Whether a stream is a terminal that a person looks at and that can wipe a line. */
export function canBeWiped(isTerminal: boolean | undefined, { TERM, CI, NO_COLOR }: NodeJS.ProcessEnv): boolean {
  return isTerminal === true && TERM !== 'dumb' && !CI && !NO_COLOR;
}
