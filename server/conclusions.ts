/**
 * What a writer is told: of all that was found the part that lies in one file, what is accepted taken out, each once, in order, and not too
 * much. It is put together again only for the files of which something else was found.
 */
import { dequal } from 'dequal';
import type { Finding, Level } from '../shared/finding.ts';
import { getOrInsert } from '../shared/maps.ts';
import type { InParts } from '../shared/parts.ts';
import type { Settings } from '../shared/settings.ts';
import { compareText, differenceBetween, type Place } from '../shared/text.ts';
import { type Acceptance, type Accepted, canBeAccepted, hasReason, sift } from './acceptance.ts';
import { type FileResult, findingOf, foundAcross } from './file-result.ts';
import { acceptUnused } from './findings/accept-unused.ts';
import { findSort } from './findings/all.ts';
import { type Across, placesAmong } from './findings/support/across.ts';
import { shownLevel } from './levels.ts';

export type SettingsOf = (file: string) => Settings;

export interface Told {
  readonly findings: readonly Finding[];
  /** What is found too, and accepted by the writer. */
  readonly accepted: readonly Accepted[];
}

/** What a result says of one file. */
interface Part {
  readonly findings: Finding[];
  /** Where the acceptances stand that its cards come to. */
  readonly reached: Place[];
}

/** The parts of a result, by the files that they lie in; one of its own file in any case. */
function partsOf({ file, findings, reached }: FileResult): ReadonlyMap<string, Part> {
  const parts = new Map<string, Part>();
  const partIn = (where: string) => getOrInsert(parts, where, () => ({ findings: [], reached: [] }));
  partIn(file);
  for (const finding of findings) partIn(finding.place.file).findings.push(finding);
  for (const place of reached) partIn(place.file).reached.push(place);
  return parts;
}

/** What was found across files. */
interface FoundAcross {
  readonly files: ReadonlySet<Across>;
  readonly whole: readonly string[];
  /** By the file that they lie in. */
  readonly found: ReadonlyMap<string, readonly Finding[]>;
  /** For each file the others in which something is found that names a place in it. */
  readonly naming: ReadonlyMap<string, ReadonlySet<string>>;
}

export class Conclusions {
  private readonly results = new Map<string, FileResult>();
  /** For each file the parts that lie in it, by the files that they were found for. */
  private readonly parts = new Map<string, Map<string, Part>>();
  private across: FoundAcross = { files: new Set(), whole: [], found: new Map(), naming: new Map() };
  /** Those with results that were not there when somebody last looked across files. */
  private readonly fresh = new Set<string>();
  /** The files of which something else may be told since somebody last took them out. */
  readonly changed = new Set<string>();

  constructor(private readonly settingsOf: SettingsOf) {}

  /** Those of which it has results, in the order of their paths. */
  get files(): string[] {
    return [...this.results.keys()].sort(compareText);
  }

  put(result: FileResult): void {
    const { file } = result;
    this.forget(file);
    this.results.set(file, result);
    if (!this.across.files.has(result.across)) this.fresh.add(file);
    for (const [where, part] of partsOf(result)) {
      getOrInsert(this.parts, where, () => new Map()).set(file, part);
      this.changed.add(where);
    }
    for (const where of this.across.naming.get(file) ?? []) this.changed.add(where);
  }

  /** Nothing is known of a file any more. */
  forget(file: string): void {
    const known = this.results.get(file);
    if (!known) return;
    this.results.delete(file);
    this.fresh.delete(file);
    for (const where of partsOf(known).keys()) {
      this.parts.get(where)?.delete(file);
      this.changed.add(where);
    }
  }

  /** What is found across files is what it was when somebody last looked. */
  isAcrossKnown(whole: readonly string[]): boolean {
    const { across, fresh, results } = this;
    return fresh.size === 0 && results.size === across.files.size && areThose(whole, across.whole);
  }

  /** Looks for what is found across files, where that can be something else; `whole` are those of folders that were looked through. */
  *lookAcross(whole: readonly string[]): InParts<void> {
    if (this.isAcrossKnown(whole)) return;
    const { across: before } = this;
    const files = this.files.map((file) => (this.results.get(file) as FileResult).across);
    const all = yield* foundAcross(files, whole);
    const found = new Map<string, Finding[]>();
    const naming = new Map<string, Set<string>>();
    for (const finding of all) {
      const { file } = finding.place;
      getOrInsert(found, file, () => []).push(finding);
      for (const { place } of [...finding.path, ...finding.fixes.flatMap(({ edits }) => edits)])
        getOrInsert(naming, place.file, () => new Set()).add(file);
    }
    this.across = { files: new Set(files), whole, found, naming };
    this.fresh.clear();
    for (const file of new Set([...before.found.keys(), ...found.keys()]))
      if (!dequal(before.found.get(file), found.get(file))) this.changed.add(file);
  }

  /** What is told of a file, as far as it is known. */
  told(file: string): Told {
    const settings = this.settingsOf(file);
    const parts = [...(this.parts.get(file) ?? [])].sort(([a], [b]) => compareText(a, b)).map(([, part]) => part);
    const { acceptances = [], damaged, across } = this.results.get(file) ?? {};
    // Of a file that has changed since, what was found across files stands at places that are no more.
    const isOther = across !== undefined && !this.across.files.has(across);
    const foundAcross = isOther ? [] : (this.across.found.get(file) ?? []);
    const all = [...parts.flatMap(({ findings }) => findings), ...foundAcross];
    const { standing, silenced, unused } = sift(withoutDuplicates(all), acceptances);
    // An acceptance in a procedure that no card does has had nothing to silence yet.
    const isReached = placesAmong(parts.flatMap(({ reached }) => reached));
    const idle = damaged ? [] : unused.filter(({ place }) => isReached(place));
    return {
      findings: atMost(levelled([...standing, ...idle.map(unusedFinding)], settings), settings),
      accepted: silenced.flatMap(({ finding, acceptance }) => {
        const isShown = withLevel(finding, settings).length > 0;
        return isShown ? [{ finding: asTold(finding), acceptance }] : [];
      }),
    };
  }

  /** What is told of all files. */
  *toldOfAll(): InParts<Told> {
    const findings: Finding[] = [];
    const accepted: Accepted[] = [];
    for (const file of [...new Set([...this.parts.keys(), ...this.across.found.keys()])].sort(compareText)) {
      const told = this.told(file);
      for (const finding of told.findings) findings.push(finding);
      for (const one of told.accepted) accepted.push(one);
      yield;
    }
    return { findings, accepted };
  }
}

/**
 * What is told of a file while only these have been looked for, beside what still stands of the version before. Whether its
 * acceptances have anything to silence is not known yet.
 */
export function toldFirst(
  found: readonly Finding[],
  standing: readonly Finding[],
  acceptances: readonly Acceptance[],
  settings: Settings,
): Finding[] {
  const first = sift(withoutDuplicates(found), acceptances).standing;
  return atMost([...levelled(first, settings), ...standing], settings);
}

/** What was told of one version of a file and still stands in the next one, where that has moved to. */
export function standingIn(now: string, file: string, before: string, findings: readonly Finding[]): Finding[] {
  const { start, removed, added } = differenceBetween(before, now);
  const by = added - removed;
  const moved = (place: Place): Place | undefined => {
    if (place.file !== file || place.end <= start) return place;
    if (place.start >= start + removed) return { ...place, start: place.start + by, end: place.end + by };
    return place.start <= start && start + removed <= place.end ? { ...place, end: place.end + by } : undefined;
  };
  return findings.flatMap((finding) => {
    const place = moved(finding.place);
    const path = finding.path.flatMap(({ place: at, text }) => {
      const there = moved(at);
      return there ? [{ place: there, text }] : [];
    });
    return place ? [{ ...finding, place, path, fixes: [] }] : [];
  });
}

function areThose(some: readonly unknown[], others: readonly unknown[]): boolean {
  return some === others || (some.length === others.length && some.every((one, index) => one === others[index]));
}

/**
 * Written-out procedures and configurations find the same thing at the same place more than once. What a card shows by itself is not told
 * again of some of the calls in which another does it.
 */
function withoutDuplicates(findings: readonly Finding[]): Finding[] {
  const first = new Map<string, Finding>();
  for (const finding of findings) {
    const key = keyOf(finding, finding.message);
    if (!first.has(key)) first.set(key, finding);
  }
  return [...first.values()].flatMap((finding) => {
    const { inEveryCall } = finding;
    return inEveryCall !== undefined && first.has(keyOf(finding, inEveryCall)) ? [] : [finding];
  });
}

function keyOf({ code, place: { file, start, end } }: Finding, message: string): string {
  return JSON.stringify([code, file, start, end, message]);
}

function unusedFinding(acceptance: Acceptance): Finding {
  const { code, place } = acceptance;
  const open = `${code} cannot be accepted: what it is about is not understood, and so not proved. Mend that, and take this out.`;
  const known = findSort(code) ? '' : ' There is no finding of that code.';
  const idle = `Nothing here gives the finding ${code}.${known} Take this out, or move it to the step, stage or card that does.`;
  const bare = `This accepts ${code} without a reason, so the finding stands. Say why it is right here: the card prints it.`;
  return findingOf(acceptUnused, {
    place,
    message: !canBeAccepted(code) ? open : hasReason(acceptance) ? idle : bare,
    fixes: [{ title: 'Take it out', edits: [{ place, newText: '' }] }],
  });
}

const gravity: Readonly<Record<Level, number>> = { error: 0, warning: 1, hint: 2 };

/** No more than the settings allow for a file, in the order of the text. */
function atMost(findings: readonly Finding[], { maximumFindings }: Settings): Finding[] {
  return [...findings].sort(byGravity).slice(0, maximumFindings).sort(byPlace);
}

/** With the levels that the settings give. */
function levelled(findings: readonly Finding[], settings: Settings): Finding[] {
  return findings.flatMap((finding) => withLevel(finding, settings));
}

function withLevel(finding: Finding, { levels }: Settings): Finding[] {
  const level = shownLevel(finding, levels);
  return level === 'off' ? [] : [{ ...asTold(finding), level }];
}

/** What is told stays as it is, though places move along with their text. */
function asTold(finding: Finding): Finding {
  const fixes = finding.fixes.map((fix) => ({ ...fix, edits: fix.edits.map(inItsPlace) }));
  return { ...inItsPlace(finding), path: finding.path.map(inItsPlace), fixes };
}

function inItsPlace<Told extends { readonly place: Place }>(told: Told): Told {
  return { ...told, place: { ...told.place } };
}

function byGravity(a: Finding, b: Finding): number {
  return gravity[a.level] - gravity[b.level] || byPlace(a, b);
}

function byPlace(a: Finding, b: Finding): number {
  return a.place.start - b.place.start || a.place.end - b.place.end || compareText(a.code, b.code);
}
