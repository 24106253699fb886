import { resolve } from 'node:path';
import { isOfOneCard, openWorkspace, type Released, releaseDigest } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, fileName, findCards } from './files.ts';
import { type ReleasedFile, releasedIn } from './released.ts';
import { readPrivateKey, sealed } from './seal.ts';
import { settingsFrom } from './settings.ts';
import type { Surroundings } from './surroundings.ts';
import { toolOf } from './tool.ts';
import { fileNames, writeCard } from './write-card.ts';

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
  const { folder, complain, write, tell } = surroundings;
  const key = options.key === undefined ? undefined : readPrivateKey(resolve(folder, options.key));
  const { files, problems } = findCards(paths, folder);
  for (const problem of problems) complain(`${problem}\n`);
  const api = openWorkspace(diskProvider(folder, files), settingsFrom(surroundings));
  const tool = toolOf(surroundings);
  const cards = files.flatMap(({ name }, index) => {
    tell('Proving and rendering file', index + 1, files.length);
    return api.release(name, tool);
  });
  if (cards.length === 0) {
    if (files.length > 0) complain(`There is no card in ${files.map(({ name }) => name).join(', ')}.\n`);
    return exitCodes.couldNotRun;
  }
  const to = resolve(folder, options.to);
  const before = releasedIn(to);
  const refused = cards.filter((card) => {
    const reasons = [...card.obstacles, ...sameRevision(card, before, folder)];
    if (reasons.length > 0) complain(`"${card.title}" is not released. ${reasons.join(' ')}\n`);
    return reasons.length > 0;
  });
  const written = fileNames(
    cards.filter((card) => !refused.includes(card)),
    nameOf,
  );
  for (const [name, { html }] of written)
    write(`${hiddenShown(fileName(writeCard(resolve(to, name), sealed(html, key)), folder))}\n`);
  if (problems.length > 0) return exitCodes.couldNotRun;
  return refused.length > 0 ? exitCodes.findings : exitCodes.clean;
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
