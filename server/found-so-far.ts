/** What was found in one version of a file, sort by sort: nothing of it is looked for twice. */
import type { Finding } from '../shared/finding.ts';
import { getOrInsert } from '../shared/maps.ts';
import type { Settings } from '../shared/settings.ts';
import type { FindingSort } from './findings/finding.ts';

interface Sort {
  readonly sort: FindingSort;
  readonly findings: readonly Finding[];
}

export class FoundSoFar {
  private readonly found = new Map<Settings, Map<string, Sort>>();

  /** `where` tells one card of the file from the other, and the file from its cards. */
  of(sort: FindingSort, where: string, settings: Settings, look: () => readonly Finding[]): readonly Finding[] {
    const sorts = getOrInsert(this.found, settings, () => new Map());
    return getOrInsert(sorts, `${where} ${sort.code}`, () => ({ sort, findings: look() })).findings;
  }

  /** What has places, and may be there in the next version too. */
  get thatMayStay(): unknown[] {
    const sorts = [...this.found.values()].flatMap((of) => [...of.values()]);
    return sorts.flatMap(({ sort, findings }) => (sort.reads ? [findings] : []));
  }

  /** What is found where something of this has become other. */
  thatStays(changed: 'words' | 'machine'): FoundSoFar {
    const left = new FoundSoFar();
    for (const [settings, sorts] of this.found) {
      left.found.set(settings, new Map([...sorts].filter(([, { sort }]) => sort.reads && sort.reads !== changed)));
    }
    return left;
  }
}
