const forgetting: (() => void)[] = [];

/** What is made when it is first asked for. */
export function lazily<Value>(make: () => Value): () => Value {
  let made: Value | undefined;
  forgetting.push(() => {
    made = undefined;
  });
  return () => {
    made ??= make();
    return made;
  };
}

/** As if nothing had been asked for yet: what the runtime lends, such as a segmenter, cannot be kept beyond a process. */
export function forgetMade(): void {
  for (const forget of forgetting) forget();
}
