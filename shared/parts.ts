/** Work that is done in parts, so that whoever runs it can do something else in between. */
export type InParts<Result> = Generator<void, Result>;

/** Does all parts at once. */
export function finish<Result>(work: InParts<Result>): Result {
  for (;;) {
    const part = work.next();
    if (part.done) return part.value;
  }
}
