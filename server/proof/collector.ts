/** Facts from all configurations of a card, each once, with the configurations on which it holds. */

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
  readonly configurations: Set<string>;
  readonly calls: Set<Call | undefined>;
}

export class Collector {
  private readonly lists = new Map<string, Map<string, Entry>>();
  private readonly weights = new Map<string, number>();
  private current = '';
  private readonly all = new Set<string>();

  /** What is added from now on is so on machines of this name. */
  begin(configuration: string): void {
    this.current = configuration;
    this.all.add(configuration);
  }

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
    const entries = this.lists.get(list) ?? new Map<string, Entry>();
    this.lists.set(list, entries);
    const kept = entries.get(key) ?? {
      fact: fact(),
      configurations: new Set<string>(),
      calls: new Set<Call | undefined>(),
    };
    kept.configurations.add(this.current);
    kept.calls.add(call);
    entries.set(key, kept);
    return kept.fact as Fact;
  }

  /** Of facts with one key the one with the highest weight is kept. */
  addWorst<List extends keyof Lists>(
    list: List,
    key: string,
    weight: number,
    fact: () => Lists[List],
    call?: Call,
  ): void {
    const weighed = `${list} ${key}`;
    const heaviest = this.weights.get(weighed);
    if (heaviest !== undefined && weight > heaviest) this.lists.get(list)?.set(key, this.entry(list, key, fact()));
    this.add(list, key, fact, call);
    this.weights.set(weighed, Math.max(weight, heaviest ?? weight));
  }

  private entry(list: string, key: string, fact: Break): Entry {
    const { configurations = new Set<string>(), calls = new Set<Call | undefined>() } =
      this.lists.get(list)?.get(key) ?? {};
    return { fact, configurations, calls };
  }

  /** The facts with their keys, for comparing what two collectors have. */
  entries(): [key: string, fact: Break][] {
    return [...this.lists].flatMap(([list, entries]) =>
      [...entries].map(([key, { fact }]): [string, Break] => [`${list} ${key}`, fact]),
    );
  }

  take<List extends keyof Lists>(list: List): Lists[List][] {
    return [...(this.lists.get(list)?.values() ?? [])].map(({ fact, configurations, calls }) => ({
      ...(fact as Lists[List]),
      ...onlyIn(calls),
      ...(configurations.size < this.all.size && { configurations: [...configurations] }),
    }));
  }
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
