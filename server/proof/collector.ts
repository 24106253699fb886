/** Facts from all configurations of a card, each once, with the configurations on which it holds. */

import type { Place } from '../../shared/text.ts';
import type { Break } from './facts.ts';

interface Entry {
  readonly fact: Break;
  readonly configurations: Set<string>;
}

export class Collector {
  private readonly lists = new Map<string, Map<string, Entry>>();
  private readonly weights = new Map<string, number>();
  private current = '';
  private readonly all = new Set<string>();

  begin(configuration: string): void {
    this.current = configuration;
    this.all.add(configuration);
  }

  /** The first fact with a key is kept, and given back: the nearest places are visited first, so its path is the shortest. */
  add<Fact extends Break>(list: string, key: string, fact: () => Fact): Fact {
    const entries = this.lists.get(list) ?? new Map<string, Entry>();
    this.lists.set(list, entries);
    const kept = entries.get(key) ?? { fact: fact(), configurations: new Set<string>() };
    kept.configurations.add(this.current);
    entries.set(key, kept);
    return kept.fact as Fact;
  }

  /** Of facts with one key the one with the highest weight is kept. */
  addWorst<Fact extends Break>(list: string, key: string, weight: number, fact: () => Fact): void {
    const weighed = `${list} ${key}`;
    const heaviest = this.weights.get(weighed);
    if (heaviest !== undefined && weight > heaviest) this.lists.get(list)?.set(key, this.entry(list, key, fact()));
    else this.add(list, key, fact);
    this.weights.set(weighed, Math.max(weight, heaviest ?? weight));
  }

  private entry(list: string, key: string, fact: Break): Entry {
    const configurations = this.lists.get(list)?.get(key)?.configurations ?? new Set<string>();
    return { fact, configurations: configurations.add(this.current) };
  }

  /** The facts with their keys, for comparing what two collectors have. */
  entries(): [key: string, fact: Break][] {
    return [...this.lists].flatMap(([list, entries]) =>
      [...entries].map(([key, { fact }]): [string, Break] => [`${list} ${key}`, fact]),
    );
  }

  take<Fact extends Break>(list: string): Fact[] {
    return [...(this.lists.get(list)?.values() ?? [])].map(({ fact, configurations }) => ({
      ...(fact as Fact),
      configuration: configurations.size === this.all.size ? undefined : [...configurations].join('; '),
    }));
  }
}

export function placeKey(place: Place): string {
  return `${place.file} ${place.start} ${place.end}`;
}
