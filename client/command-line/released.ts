/** Reads what a released card says that it was made from. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { releaseIn } from '../../server/api.ts';
import { largestPage } from '../../shared/file-sizes.ts';
import type { Release } from '../../shared/release.ts';
import { type ReadOptions, readBytes } from './files.ts';
import { readSeal, type Sealed } from './seal.ts';
import { CannotRun } from './surroundings.ts';

export interface ReleasedFile {
  readonly path: string;
  readonly release: Release;
  readonly seal: Sealed | undefined;
}

/** Undefined where it is no released card. */
export function readReleased(path: string, options: ReadOptions = {}): ReleasedFile | undefined {
  const bytes = readPage(path, options);
  const release = releaseIn(bytes.toString('utf8'));
  return release && { path, release, seal: readSeal(bytes) };
}

function readPage(path: string, options: ReadOptions): Buffer {
  try {
    return readBytes(path, '', largestPage, options);
  } catch (error) {
    throw new CannotRun(`"${path}" cannot be read: ${(error as Error).message}`);
  }
}

/** The released cards of a folder; none where there is no such folder. One that cannot be read may be any of them. */
export function releasedIn(folder: string): readonly ReleasedFile[] {
  let names: string[] = [];
  try {
    names = readdirSync(folder).filter((name) => name.endsWith('.html'));
  } catch {}
  return names.sort().flatMap((name) => readReleased(join(folder, name)) ?? []);
}
