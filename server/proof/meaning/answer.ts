/** Where an item's possible states leave the answer open: the variable to be looked at, and the states that speak for a yes. */
export interface Split {
  readonly variable: number;
  readonly mask: number;
}

/** The answer to a question about a state. `unknown`: no look at an item would tell; a reading that nobody took, a time that is not settled. */
export type Answer = 'yes' | 'no' | 'unknown' | Split;

export function isSplit(answer: Answer): answer is Split {
  return typeof answer === 'object';
}

/** The same look, for the opposite question. */
export function turned(split: Split): Split {
  return { ...split, mask: ~split.mask };
}

export function opposite(answer: Answer): Answer {
  if (isSplit(answer)) return turned(answer);
  if (answer === 'yes') return 'no';
  return answer === 'no' ? 'yes' : answer;
}
