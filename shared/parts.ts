/** Work that is done in parts, so that whoever runs it can do something else in between, or leave the rest. */
export type InParts<Result> = Generator<void, Result>;

/** Does all parts at once. */
export function finish<Result>(work: InParts<Result>): Result {
  for (;;) {
    const part = work.next();
    if (part.done) return part.value;
  }
}

/** Work that is done once, whoever asks for it; several may drive it by turns. Where it throws, each of them gets what it threw. */
export class Once<Result> {
  /** Let go of when it is over, with all that it was made from. */
  private work: InParts<void> | undefined;
  private outcome: { readonly result: Result } | { readonly thrown: unknown } | undefined;

  private isBegun = false;

  constructor(begin: () => InParts<Result>) {
    this.work = this.run(begin);
  }

  /** Begun, and not over. */
  get isUnderWay(): boolean {
    return this.isBegun && !this.outcome;
  }

  /** Undefined where it is not over, and where it threw. */
  get known(): Result | undefined {
    return this.outcome && 'result' in this.outcome ? this.outcome.result : undefined;
  }

  get result(): Result {
    return finish(this.inParts());
  }

  *inParts(): InParts<Result> {
    this.isBegun = true;
    while (!this.outcome) {
      this.work?.next();
      if (!this.outcome) yield;
    }
    this.work = undefined;
    if ('thrown' in this.outcome) throw this.outcome.thrown;
    return this.outcome.result;
  }

  private *run(begin: () => InParts<Result>): InParts<void> {
    try {
      this.outcome = { result: yield* begin() };
    } catch (thrown) {
      this.outcome = { thrown };
    }
  }
}
