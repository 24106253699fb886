/** What is found to go wrong: each fact once, with the configurations on which it holds. */

import { getOrInsert } from '../../shared/maps.ts';
import type { Place } from '../../shared/text.ts';
import type { Call } from '../flow/calls.ts';
import type { Break, Proof } from './facts.ts';

/** The lists of what goes wrong, each with its sort of fact. */
type Lists = {
  readonly [List in keyof Proof as Proof[List] extends readonly Break[]
    ? List
    : never]: Proof[List] extends readonly (infer Fact extends Break)[] ? Fact : never;
};

interface Entry {
  readonly fact: Break;
  /** Of facts with one key the heaviest is kept. */
  readonly weight: number;
  readonly calls: Set<Call | undefined>;
}

/** What some questions find on machines of one sort. */
export class Collector {
  private readonly lists = new Map<string, Map<string, Entry>>();

  constructor(readonly configuration = '') {}

  /**
   * The first fact with a key is kept, and given back: the nearest places are visited first, so its path is the shortest. `call` is where the card does
   * what it stands in.
   */
  add<List extends keyof Lists, Fact extends Lists[List]>(
    list: List,
    key: string,
    fact: () => Fact,
    call?: Call,
  ): Fact {
    return this.addWorst(list, key, 0, fact, call);
  }

  /** Of facts with one key the one with the highest weight is kept. */
  addWorst<List extends keyof Lists, Fact extends Lists[List]>(
    list: List,
    key: string,
    weight: number,
    fact: () => Fact,
    call?: Call,
  ): Fact {
    const entries = getOrInsert(this.lists, list, () => new Map<string, Entry>());
    const known = entries.get(key);
    const calls = known?.calls ?? new Set();
    const kept = known && known.weight >= weight ? known : { fact: fact(), weight, calls };
    kept.calls.add(call);
    entries.set(key, kept);
    return kept.fact as Fact;
  }

  /** The facts with their keys, for comparing what two collectors have. */
  entries(): [key: string, fact: Break][] {
    return [...this.lists].flatMap(([list, entries]) =>
      [...entries].map(([key, { fact }]): [string, Break] => [`${list} ${key}`, fact]),
    );
  }

  in(list: keyof Lists): Iterable<[key: string, entry: Entry]> {
    return this.lists.get(list) ?? [];
  }
}

/** The facts of all collectors, those with one key as one. `join` puts what another says into the one that is kept. */
export function factsOf<List extends keyof Lists>(
  list: List,
  collectors: readonly Collector[],
  join: (kept: Lists[List], other: Lists[List]) => Lists[List] = (kept) => kept,
): Lists[List][] {
  const found = new Map<string, Entry & { readonly configurations: ReadonlySet<string> }>();
  for (const collector of collectors) {
    for (const [key, entry] of collector.in(list)) {
      const known = found.get(key);
      const [kept, other] = known && known.weight >= entry.weight ? [known, entry] : [entry, known];
      found.set(key, {
        ...kept,
        fact: other ? join(kept.fact as Lists[List], other.fact as Lists[List]) : kept.fact,
        calls: new Set([...(known?.calls ?? []), ...entry.calls]),
        configurations: new Set([...(known?.configurations ?? []), collector.configuration]),
      });
    }
  }
  const all = new Set(collectors.map(({ configuration }) => configuration));
  return [...found.values()].map(({ fact, configurations, calls }) => ({
    ...(fact as Lists[List]),
    ...onlyIn(calls),
    ...(configurations.size < all.size && { configurations: [...configurations] }),
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

export function placeKey(place: Place): string {
  return `${place.file} ${place.start} ${place.end}`;
}
