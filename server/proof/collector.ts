/** What is found to go wrong: each fact once, with the configurations on which it holds. */

import type { Break, Call } from './break.ts';

interface Entry<Fact extends Break> {
  readonly fact: Fact;
  /** Of facts with one key the heaviest is kept. */
  readonly weight: number;
  readonly calls: Set<Call | undefined>;
}

/** What questions of one sort find on machines of one sort. */
export class Collector<Fact extends Break = Break> {
  private readonly entries = new Map<string, Entry<Fact>>();

  constructor(readonly configuration = '') {}

  /**
   * The first fact with a key is kept, and given back: the nearest places are visited first, so its path is the shortest. `call` is where the card does
   * what it stands in.
   */
  add<One extends Fact>(key: string, fact: () => One, call?: Call): One {
    return this.addWorst(key, 0, fact, call);
  }

  /** Of facts with one key the one with the highest weight is kept. */
  addWorst<One extends Fact>(key: string, weight: number, fact: () => One, call?: Call): One {
    const known = this.entries.get(key);
    const calls = known?.calls ?? new Set();
    const kept = known && known.weight >= weight ? known : { fact: fact(), weight, calls };
    kept.calls.add(call);
    this.entries.set(key, kept);
    return kept.fact as One;
  }

  get found(): Iterable<[key: string, entry: Entry<Fact>]> {
    return this.entries;
  }
}

/** The facts of all collectors, those with one key as one, of so many configurations. `join` puts what another says into the one that is kept. */
export function factsOf<Fact extends Break>(
  collectors: readonly Collector<Fact>[],
  configurations: number,
  join: (kept: Fact, other: Fact) => Fact = (kept) => kept,
): Fact[] {
  const found = new Map<string, Entry<Fact> & { readonly on: ReadonlySet<string> }>();
  for (const { found: entries, configuration } of collectors) {
    for (const [key, entry] of entries) {
      const known = found.get(key);
      const [kept, other] = known && known.weight >= entry.weight ? [known, entry] : [entry, known];
      found.set(key, {
        ...kept,
        fact: other ? join(kept.fact, other.fact) : kept.fact,
        calls: new Set([...(known?.calls ?? []), ...entry.calls]),
        on: new Set([...(known?.on ?? []), configuration]),
      });
    }
  }
  return [...found.values()].map(({ fact, on, calls }) => ({
    ...fact,
    ...onlyIn(calls),
    ...(on.size < configurations && { configurations: [...on] }),
  }));
}

/** The calls in which a fact holds, where it does not in all: those of one name, each once for all configurations. */
function onlyIn(all: ReadonlySet<Call | undefined>): Pick<Break, 'calls'> {
  const [first] = all;
  const calls = new Map([...all].map((call) => [call?.number, call] as const));
  const isOfOne = [...all].every((call) => call !== undefined && call.name === first?.name);
  if (!first || !isOfOne || calls.size === first.of) return {};
  return { calls: [...calls.values()].flatMap((call) => call ?? []).sort((a, b) => a.number - b.number) };
}
