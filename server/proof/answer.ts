/** The answer to a question about a state. */
export interface Split {
  readonly variable: number;
  readonly mask: number;
}

/** `unknown`: no look at an item would tell; a reading that nobody took, a time that is not settled. */
export type Answer = 'yes' | 'no' | 'unknown' | Split;

export function isSplit(answer: Answer): answer is Split {
  return typeof answer === 'object';
}
