/** A step that the proof does not follow, as the writer is told of it. */
export interface NotFollowed {
  /** As it is printed. */
  readonly number: number;
  readonly words: string;
  /** `people`: it says nothing of an item that has a state, and is right as it is. `unseen`: it says what an action could say. */
  readonly sort: 'people' | 'unseen';
  readonly why: string;
}
