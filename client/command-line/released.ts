/** Reads what a released card says that it was made from. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { releaseIn } from '../../server/api.ts';
import type { Release } from '../../shared/release.ts';
import { readSeal, type Sealed } from './seal.ts';

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
