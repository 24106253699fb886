/** What is found to go wrong: each fact once, with the configurations on which it holds. */

import type { Place } from '../../shared/text.ts';
import { type Call, onlyIn } from '../flow/calls.ts';
import { type Break, placeKey } from './break.ts';

interface Entry<Fact extends Break> {
  /** With the place of the fact it tells one from the other. Places move along with their text, so that no key is kept. */
  readonly about: About;
  readonly fact: Fact;
  /** Of facts about the same at one place the heaviest is kept. */
  readonly weight: number;
  readonly calls: Set<Call | undefined>;
}

/** Which of the things of a question something is about. */
type About = string | number;

/** What questions of one sort find on machines of one sort. */
export class Collector<Fact extends Break = Break> {
  private readonly entries = new Map<string, Entry<Fact>>();

  constructor(readonly machines = '') {}

  /**
   * The first fact about the same at one place is kept, and given back: the nearest places are visited first, so its path is the shortest. `call` is
   * where the card does what it stands in.
   */
  add<One extends Fact>(about: About, place: Place, fact: () => One, call?: Call): One {
    return this.addWorst(about, place, 0, fact, call);
  }

  /** Of facts about the same at one place the one with the highest weight is kept. */
  addWorst<One extends Fact>(about: About, place: Place, weight: number, fact: () => One, call?: Call): One {
    const key = `${about} ${placeKey(place)}`;
    const known = this.entries.get(key);
    const calls = known?.calls ?? new Set();
    const kept = known && known.weight >= weight ? known : { about, fact: fact(), weight, calls };
    kept.calls.add(call);
    this.entries.set(key, kept);
    return kept.fact as One;
  }

  get found(): readonly Entry<Fact>[] {
    return [...this.entries.values()];
  }
}

/**
 * The facts of all collectors, those about the same at one place as one. `join` puts what another says into the one that is kept.
 * @param sorts of how many sorts of machine they are
 */
export function factsOf<Fact extends Break>(
  collectors: readonly Collector<Fact>[],
  sorts: number,
  join: (kept: Fact, other: Fact) => Fact = (kept) => kept,
): Fact[] {
  const found = new Map<string, Entry<Fact> & { readonly on: ReadonlySet<string> }>();
  for (const { found: entries, machines } of collectors) {
    for (const entry of entries) {
      const key = `${entry.about} ${placeKey(entry.fact.place)}`;
      const known = found.get(key);
      const [kept, other] = known && known.weight >= entry.weight ? [known, entry] : [entry, known];
      found.set(key, {
        ...kept,
        fact: other ? join(kept.fact, other.fact) : kept.fact,
        calls: new Set([...(known?.calls ?? []), ...entry.calls]),
        on: new Set([...(known?.on ?? []), machines]),
      });
    }
  }
  return [...found.values()].map(({ fact, on, calls }) => {
    const only = onlyIn(calls);
    return {
      ...fact,
      ...(only.length > 0 && { calls: only }),
      ...(on.size < sorts && { configurations: [...on] }),
    };
  });
}
