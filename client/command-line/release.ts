import { resolve } from 'node:path';
import { isOfOneCard, openWorkspace, type Released, releaseDigest } from '../../server/api.ts';
import type { ExitCode } from './exit-codes.ts';
import { diskProvider, fileName, findCards } from './files.ts';
import { type ReleasedFile, releasedIn } from './released.ts';
import { readPrivateKey, sealed } from './seal.ts';
import { settingsFrom } from './settings.ts';
import type { Surroundings } from './surroundings.ts';
import { toolOf } from './tool.ts';
import { writeCards } from './write-cards.ts';

interface ReleaseOptions {
  readonly to: string;
  readonly key?: string;
}

/** Writes each card that may be released, and says of the others what stands against it. */
export function releaseCommand(
  paths: readonly string[],
  options: ReleaseOptions,
  surroundings: Surroundings,
): ExitCode {
  const { folder } = surroundings;
  const key = options.key === undefined ? undefined : readPrivateKey(resolve(folder, options.key));
  const found = findCards(paths, folder);
  const api = openWorkspace(diskProvider(folder, found.files), settingsFrom(surroundings));
  const tool = toolOf(surroundings);
  const before = releasedIn(resolve(folder, options.to));
  return writeCards(
    found,
    {
      api,
      cardsOf: (file) => api.release(file, tool),
      refusalOf: (card) => {
        const reasons = [...card.obstacles, ...sameRevision(card, before, folder)];
        return reasons.length > 0 ? `"${card.title}" is not released. ${reasons.join(' ')}\n` : undefined;
      },
      stemOf: nameOf,
      contentOf: ({ html }) => sealed(html, key),
      to: options.to,
    },
    surroundings,
  );
}

/** What a crew holds as revision B is never something else. */
function sameRevision({ release }: Released, before: readonly ReleasedFile[], folder: string): string[] {
  const other = before.find(
    (file) =>
      isOfOneCard(file.release, release) &&
      file.release.revision === release.revision &&
      releaseDigest(file.release) !== releaseDigest(release),
  );
  return other
    ? [
        `Revision ${release.revision} of it was released with other contents (${fileName(other.path, folder)}). Give it a new revision.`,
      ]
    : [];
}

function nameOf({ name, release }: Released): string {
  return `${name}-${release.revision.replaceAll(/[^\p{L}\p{N}.]+/gu, '-')}`;
}
