/** Reads what a released card says that it was made from. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as v from 'valibot';
import { type Release, releaseElement } from '../../shared/release.ts';
import { readSeal, type Sealed } from './seal.ts';

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

const element = new RegExp(`<script id="?${releaseElement}"? type="?application/json"?>(.*?)</script>`, 's');

/** Undefined where a page is no released card. */
export function releaseIn(page: string): Release | undefined {
  const [, json] = element.exec(page) ?? [];
  if (json === undefined) return undefined;
  try {
    return v.parse(schema, JSON.parse(json)) as Release;
  } catch {
    return undefined;
  }
}

export interface ReleasedFile {
  readonly path: string;
  readonly release: Release;
  readonly seal: Sealed | undefined;
}

export function readReleased(path: string): ReleasedFile | undefined {
  const bytes = readFileSync(path);
  const release = releaseIn(bytes.toString('utf8'));
  return release && { path, release, seal: readSeal(bytes) };
}

/** The released cards of a folder; none where there is no such folder. */
export function releasedIn(folder: string): readonly ReleasedFile[] {
  let names: string[] = [];
  try {
    names = readdirSync(folder).filter((name) => name.endsWith('.html'));
  } catch {}
  return names.sort().flatMap((name) => readReleased(join(folder, name)) ?? []);
}

/** Revisions of one card have its number; where it has none, its name. */
export function isOfOneCard(one: Release, other: Release): boolean {
  return one.number === other.number && (one.number !== '' || one.card === other.card);
}
