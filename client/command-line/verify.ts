import type { KeyObject } from 'node:crypto';
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Api, openWorkspace, releaseDigest } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import type { Release } from '../../shared/release.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, findCards } from './files.ts';
import { type ReleasedFile, readReleased } from './released.ts';
import { isSignedWith, readPublicKey } from './seal.ts';
import { settingsFrom } from './settings.ts';
import type { Surroundings } from './surroundings.ts';
import { toolOf } from './tool.ts';

interface VerifyOptions {
  readonly sources: readonly string[];
  readonly key?: string;
}

type Verdict = 'current' | 'older' | 'altered' | 'not ours' | 'unknown';

interface Verified {
  readonly verdict: Verdict;
  readonly why: string;
}

/** What is so of released cards: what their sources give now, older, altered, or no released card of ours. */
export function verifyCommand(paths: readonly string[], options: VerifyOptions, surroundings: Surroundings): ExitCode {
  const { folder, write, complain } = surroundings;
  const key = options.key === undefined ? undefined : readPublicKey(resolve(folder, options.key));
  const missing = paths.filter((path) => !existsSync(resolve(folder, path)));
  for (const path of missing) complain(`There is no file "${path}".\n`);
  const sources = sourcesIn(options.sources, surroundings);
  const verdicts = paths
    .filter((path) => !missing.includes(path))
    .map((path) => {
      const { verdict, why } = verified(resolve(folder, path), sources, key);
      write(`${hiddenShown(`${path}: ${verdict}. ${why}`)}\n`);
      return verdict;
    });
  if (missing.length > 0) return exitCodes.couldNotRun;
  return verdicts.every((verdict) => verdict === 'current') ? exitCodes.clean : exitCodes.findings;
}

interface Sources {
  readonly of: (release: Release) => readonly Source[];
}

/** A card as its sources are now. */
interface Source {
  readonly now: Release;
  readonly page: () => string | undefined;
}

function sourcesIn(paths: readonly string[], surroundings: Surroundings): Sources {
  const { folder } = surroundings;
  const { files } = findCards(paths, folder);
  const api: Api = openWorkspace(diskProvider(folder, files), settingsFrom(surroundings));
  const tool = toolOf(surroundings);
  return {
    of: ({ file, card }) =>
      files
        .filter(({ name }) => name.split('/').at(-1) === file)
        .flatMap(({ name }) => api.releases(name, tool).map((now) => ({ name, now })))
        .filter(({ now }) => now.card === card)
        .map(({ name, now }) => ({
          now,
          page: () => api.release(name, tool).find(({ release }) => release.card === card)?.html,
        })),
  };
}

function verified(path: string, sources: Sources, key: KeyObject | undefined): Verified {
  const file = readReleased(path, { isNamed: true });
  if (!file) return { verdict: 'not ours', why: 'It is no released card.' };
  const { release, seal } = file;
  if (!seal?.isIntact) return { verdict: 'altered', why: 'It was changed after it was released.' };
  const signature = signatureOf(file, key);
  if (signature.verdict !== undefined) return { verdict: signature.verdict, why: signature.why };
  const found = sources.of(release);
  const [first] = found;
  if (!first) {
    const why = `There is no card "${release.card}" in a file "${release.file}" here. Name its folder with --sources.`;
    return { verdict: 'unknown', why: `${why}${signature.why}` };
  }
  const same = found.find(({ now }) => releaseDigest(now) === releaseDigest(release));
  if (!same) return { verdict: 'older', why: `${changed(release, first.now)}${signature.why}` };
  if (same.page() !== seal.page.toString('utf8'))
    return { verdict: 'altered', why: 'It is not what Cardwright makes of the sources that it names.' };
  return { verdict: 'current', why: `It is revision ${release.revision}, as the sources give it now.${signature.why}` };
}

/** A verdict where the signature alone decides. `why` follows what else is said. */
function signatureOf({ seal }: ReleasedFile, key: KeyObject | undefined): { verdict?: Verdict; why: string } {
  const by = seal?.signature?.key.slice(0, 16);
  if (!key || !seal) return { why: by === undefined ? '' : ` It is signed with the key ${by}; check that with --key.` };
  if (by === undefined) return { verdict: 'not ours', why: 'It is not signed.' };
  return isSignedWith(key, seal)
    ? { why: ` It is signed with the key ${by}.` }
    : { verdict: 'not ours', why: `It is signed with another key (${by}), or the signature was changed.` };
}

function changed(then: Release, now: Release): string {
  const differ = (a: Release['texts'], b: Release['texts']) =>
    [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((name) => a[name] !== b[name]);
  const what = [
    ...differ(then.texts, now.texts),
    ...differ(then.figures, now.figures),
    ...(JSON.stringify(then.settings) === JSON.stringify(now.settings) ? [] : ['the settings']),
    ...(JSON.stringify(then.tool) === JSON.stringify(now.tool) ? [] : [`Cardwright (${then.tool.version})`]),
  ].join(', ');
  return then.revision === now.revision
    ? `These have changed since revision ${then.revision} was released, without a new revision: ${what}.`
    : `It is revision ${then.revision}, and the sources are at revision ${now.revision}. Changed: ${what}.`;
}
