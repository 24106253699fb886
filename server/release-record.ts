/** Reads the record that a released card carries, and says how a card stands to those of its own. */
import * as v from 'valibot';
import { type Release, recordIn } from '../shared/release.ts';
import { releaseDigest } from './release.ts';

const texts = v.record(v.string(), v.string());
const schema = v.object({
  tool: v.object({ version: v.string(), workCopy: v.string() }),
  card: v.string(),
  file: v.string(),
  number: v.string(),
  revision: v.string(),
  date: v.optional(v.string()),
  texts,
  figures: texts,
  settings: v.record(v.string(), v.unknown()),
});

/** Undefined where a page is no released card. */
export function releaseIn(page: string): Release | undefined {
  const record = recordIn(page);
  return record === undefined ? undefined : readRelease(record);
}

/** Undefined where a text is no record of a release. */
export function readRelease(record: string): Release | undefined {
  try {
    return v.parse(schema, JSON.parse(record)) as Release;
  } catch {
    return undefined;
  }
}

/** Revisions of one card have its number; where it has none, its name. */
export function isOfOneCard(one: Release, other: Release): boolean {
  return one.number === other.number && (one.number !== '' || one.card === other.card);
}

/** The newest release of a card: the one with its revision, or else the last by date. */
export function lastRelease(now: Release, releases: readonly Release[]): Release | undefined {
  const own = releases.filter((release) => isOfOneCard(release, now));
  const byDate = [...own].sort((a, b) => ((a.date ?? '') < (b.date ?? '') ? -1 : 1));
  return own.find(({ revision }) => revision === now.revision) ?? byDate.at(-1);
}

export type Same = (one: Release, other: Release) => boolean;

const isSame: Same = (one, other) => releaseDigest(one) === releaseDigest(other);

/** The same card, whatever settings and version of the tool made a page of it. */
export const hasSameSources: Same = (one, other) =>
  JSON.stringify([one.texts, one.figures]) === JSON.stringify([other.texts, other.figures]);

/** How a card stands to its releases; undefined where it has none. */
export function releaseWords(now: Release, releases: readonly Release[], same: Same = isSame): string | undefined {
  const own = releases.filter((release) => isOfOneCard(release, now));
  if (own.length === 0) return undefined;
  const ofRevision = own.find(({ revision }) => revision === now.revision);
  if (!ofRevision) {
    const others = [...new Set(own.map(({ revision }) => revision))].join(', ');
    return `not released as ${now.revision}; released as ${others}`;
  }
  return same(ofRevision, now) ? `released as ${now.revision}` : `released as ${now.revision}, changed since`;
}
