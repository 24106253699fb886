import { resolve } from 'node:path';
import { openWorkspace, type ReportedCard, releaseWords, reportPage } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { LineTable, type Place } from '../../shared/text.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, fileName, findCards } from './files.ts';
import { isVersioned, writtenAt } from './git.ts';
import { releasedIn } from './released.ts';
import { settingsFrom } from './settings.ts';
import { CannotRun, type Surroundings } from './surroundings.ts';
import { toolOf } from './tool.ts';
import { refuseToReplace, writeWhole } from './write-file.ts';

interface ReportOptions {
  readonly to: string;
  readonly released?: string;
}

/** Writes one page on all cards; what it says is no failure. */
export function reportCommand(paths: readonly string[], options: ReportOptions, surroundings: Surroundings): ExitCode {
  const { folder, complain, write, tell } = surroundings;
  const { files, problems } = findCards(paths, folder);
  for (const problem of problems) complain(`${problem}\n`);
  const api = openWorkspace(diskProvider(folder, files), settingsFrom(surroundings));
  const released = options.released === undefined ? undefined : releasedSince(options.released);
  const cards = files.flatMap(({ name }, index) => {
    tell('Proving file', index + 1, files.length);
    const reported = api.reported(name).map((card) => ({ ...card, ...(released && { released: released(card) }) }));
    api.workspace.letGo(name);
    return reported;
  });
  if (cards.length === 0) throw new CannotRun('There is no card to report on.');
  const lines = new Map<string, LineTable>();
  const lineOf = ({ file, start }: Place) => {
    const table = getOrInsert(lines, file, () => new LineTable(api.workspace.textOf(file)));
    return table.positionAt(start).line + 1;
  };
  const html = reportPage(cards, {
    placeWords: (place) => `${place.file}:${lineOf(place)}`,
    ...(isVersioned(folder) && {
      versions: { writtenAt: (place) => writtenAt(place.file, lineOf(place), folder), now: new Date() },
    }),
    script: surroundings.reportScript(),
  });
  const path = resolve(folder, options.to);
  refuseToReplace(path, 'review', 'is no report. Move it away, or name another file with --to.');
  writeWhole(path, html);
  write(`${hiddenShown(fileName(path, folder))}\n`);
  return problems.length > 0 ? exitCodes.couldNotRun : exitCodes.clean;

  function releasedSince(at: string): (card: ReportedCard) => string {
    const released = releasedIn(resolve(folder, at)).map(({ release }) => release);
    const tool = toolOf(surroundings);
    return ({ file, name }) => {
      const now = api.releases(file, tool).find((release) => release.card === name);
      return (now && releaseWords(now, released)) ?? 'never released';
    };
  }
}
