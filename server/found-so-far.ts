/** What was found in one version of a file, sort by sort: nothing of it is looked for twice. */

import type { Text } from '../grammar/syntax.ts';
import type { Finding } from '../shared/finding.ts';
import { getOrInsert } from '../shared/maps.ts';
import type { Settings } from '../shared/settings.ts';
import type { Place } from '../shared/text.ts';
import type { Acceptance } from './acceptance.ts';
import type { FindingSort, Reading } from './findings/finding.ts';
import type { Across } from './findings/support/across.ts';

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
}

export class FoundSoFar {
  private readonly found = new Map<Settings, Map<string, Kept>>();
  private known: Beside | undefined;

  /** `where` tells one card of the file from the other, and the file from its cards. Where `look` is given texts, it needs to look nowhere else. */
  of(
    sort: FindingSort,
    where: string,
    settings: Settings,
    look: (texts?: Iterable<Text>) => readonly Finding[],
  ): readonly Finding[] {
    const sorts = getOrInsert(this.found, settings, () => new Map());
    const key = `${where} ${sort.code}`;
    const before = sorts.get(key);
    if (before && !before.stale) return before.findings;
    const findings = before ? [...before.findings, ...look(before.stale)] : look();
    sorts.set(key, { sort, findings });
    return findings;
  }

  beside(look: () => Beside): Beside {
    this.known ??= look();
    return this.known;
  }

  /** What has places, and may be there in the next version too. */
  get thatMayStay(): unknown[] {
    const sorts = [...this.found.values()].flatMap((of) => [...of.values()]);
    return [...sorts.flatMap(({ sort, findings }) => (sort.reads ? [findings] : [])), this.known];
  }

  /** What is found where this has become another, words in these texts alone. */
  thatStays(changed: readonly Reading[], texts: readonly Text[]): FoundSoFar {
    const left = new FoundSoFar();
    for (const [settings, sorts] of this.found) {
      left.found.set(
        settings,
        new Map([...sorts].flatMap(([key, kept]) => stillThere(kept, changed, texts).map((one) => [key, one]))),
      );
    }
    if (!changed.includes('bounds')) left.known = this.known;
    return left;
  }
}

function stillThere(kept: Kept, changed: readonly Reading[], texts: readonly Text[]): Kept[] {
  const { sort, findings, stale } = kept;
  const read = sort.reads && changed.filter((one) => sort.reads?.includes(one));
  if (read?.length === 0) return [kept];
  const isAsFound = findings.every(({ code }) => code === sort.code);
  if (!sort.inTexts || !isAsFound || read?.join() !== 'words') return [];
  const left = findings.filter(
    ({ place }) => !texts.some(({ start, end }) => start <= place.start && place.end <= end),
  );
  return [{ sort, findings: left, stale: new Set([...(stale ?? []), ...texts]) }];
}
