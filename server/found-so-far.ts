/** What was found in one version of a file, sort by sort: nothing of it is looked for twice. */

import type { Text } from '../grammar/syntax.ts';
import type { Finding } from '../shared/finding.ts';
import { getOrInsert } from '../shared/maps.ts';
import type { Settings } from '../shared/settings.ts';
import type { Place } from '../shared/text.ts';
import type { Acceptance } from './acceptance.ts';
import type { FindingSort } from './findings/finding.ts';
import type { Across } from './findings/support/across.ts';
import type { Facts } from './proof/facts.ts';

/** What is known of a file beside its findings: no words of it, and no proof. */
export interface Beside {
  readonly acceptances: readonly Acceptance[];
  /** Where the acceptances stand that its cards come to. */
  readonly reached: readonly Place[];
  readonly across: Across;
}

interface Kept {
  readonly sort: FindingSort;
  readonly findings: readonly Finding[];
  /** Where it must be looked again before they are all; absent where nowhere. */
  readonly stale?: ReadonlySet<Text>;
  /** What the proof said; absent where it was not asked. */
  readonly facts?: Facts | undefined;
}

export class FoundSoFar {
  private readonly found = new Map<Settings, Map<string, Kept>>();
  private known: Beside | undefined;
  private hasOtherBounds = false;

  /**
   * `where` tells one card of the file from the other, and the file from its cards; `facts` are what the proof of the card says. Where `look` is given
   * texts, it needs to look nowhere else.
   */
  of(
    sort: FindingSort,
    where: string,
    settings: Settings,
    look: (texts?: Iterable<Text>) => readonly Finding[],
    facts?: Facts,
  ): readonly Finding[] {
    const sorts = getOrInsert(this.found, settings, () => new Map());
    const key = `${where} ${sort.code}`;
    const before = sorts.get(key);
    const isAsProved = before?.facts === facts || sort.reads?.includes('proof') === false;
    if (before && !before.stale && isAsProved) return before.findings;
    const findings = before?.stale ? [...before.findings, ...look(before.stale)] : look();
    sorts.set(key, { sort, findings, facts });
    return findings;
  }

  get isEmpty(): boolean {
    return this.found.size === 0;
  }

  /** `look` is given what it was before some bounds became others. */
  beside(look: (before?: Beside) => Beside): Beside {
    if (!this.known || this.hasOtherBounds) this.known = look(this.known);
    this.hasOtherBounds = false;
    return this.known;
  }

  /** What has places, and may be there in the next version too. */
  get thatMayStay(): unknown[] {
    const sorts = [...this.found.values()].flatMap((of) => [...of.values()]);
    return [...sorts.flatMap(({ sort, findings }) => (sort.reads || sort.inTexts ? [findings] : [])), this.known];
  }

  /** What is found where these have become others, words in these texts alone; whether what was proved is another shows when somebody asks. */
  thatStays(changed: 'words' | 'bounds', texts: readonly Text[]): FoundSoFar {
    const left = new FoundSoFar();
    for (const [settings, sorts] of this.found) {
      left.found.set(
        settings,
        new Map([...sorts].flatMap(([key, kept]) => stillThere(kept, changed, texts).map((one) => [key, one]))),
      );
    }
    left.known = this.known;
    left.hasOtherBounds = this.hasOtherBounds || changed === 'bounds';
    return left;
  }
}

function stillThere(kept: Kept, changed: 'words' | 'bounds', texts: readonly Text[]): Kept[] {
  const { sort, findings, stale } = kept;
  if (sort.reads?.includes(changed) === false) return [kept];
  const isAsFound = findings.every(({ code }) => code === sort.code);
  if (!sort.inTexts || !isAsFound || changed !== 'words') return [];
  const left = findings.filter(
    ({ place }) => !texts.some(({ start, end }) => start <= place.start && place.end <= end),
  );
  return [{ sort, findings: left, stale: new Set([...(stale ?? []), ...texts]) }];
}
