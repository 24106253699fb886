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
  private work: InParts<void> | undefined;
  private outcome: { readonly result: Result } | { readonly thrown: unknown } | undefined;

  constructor(private readonly begin: () => InParts<Result>) {}

  get result(): Result {
    return finish(this.inParts());
  }

  *inParts(): InParts<Result> {
    this.work ??= this.run();
    while (!this.outcome) {
      this.work.next();
      if (!this.outcome) yield;
    }
    if ('thrown' in this.outcome) throw this.outcome.thrown;
    return this.outcome.result;
  }

  private *run(): InParts<void> {
    try {
      this.outcome = { result: yield* this.begin() };
    } catch (thrown) {
      this.outcome = { thrown };
    }
  }
}
