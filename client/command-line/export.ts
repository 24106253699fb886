import { join, resolve } from 'node:path';
import { openWorkspace, type Rendered } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import { sideAt } from './compare.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, fileName, findCards } from './files.ts';
import { settingsFrom } from './settings.ts';
import type { Surroundings } from './surroundings.ts';
import { fileNames, writeCard } from './write-card.ts';

interface ExportOptions {
  readonly to: string;
  readonly draft?: boolean;
  readonly compact?: boolean;
  readonly since?: string;
}

/** Writes every card that has no error; with `draft`, the others too. */
export function exportCommand(paths: readonly string[], options: ExportOptions, surroundings: Surroundings): ExitCode {
  const { folder, complain, write, tell } = surroundings;
  const { files, problems } = findCards(paths, folder);
  for (const problem of problems) complain(`${problem}\n`);
  const settingsOf = settingsFrom(surroundings);
  const api = openWorkspace(diskProvider(folder, files), (file) => ({
    ...settingsOf(file),
    ...(options.compact && { print: 'compact' }),
  }));
  const workCopy = surroundings.workCopy();
  const older = options.since === undefined ? undefined : sideAt(options.since, surroundings).cards;
  const cards = files.flatMap(({ name }, index) => {
    tell('Proving and rendering file', index + 1, files.length);
    return api.render(name, { workCopy, ...(older && { older }) });
  });
  if (cards.length === 0) {
    if (files.length > 0) complain(`There is no card in ${files.map(({ name }) => name).join(', ')}.\n`);
    return exitCodes.couldNotRun;
  }
  const refused = options.draft ? [] : cards.filter(({ errors }) => errors.length > 0);
  const written = cards.filter((card) => !refused.includes(card));
  const to = resolve(folder, options.to);
  for (const [name, { html }] of fileNames(written, (card) => card.name))
    write(`${hiddenShown(fileName(writeCard(join(to, name), html), folder))}\n`);
  for (const card of refused) complain(refusal(card));
  if (problems.length > 0) return exitCodes.couldNotRun;
  return refused.length > 0 ? exitCodes.findings : exitCodes.clean;
}

function refusal({ title, errors }: Rendered): string {
  const count = errors.length === 1 ? 'an error' : `${errors.length} errors`;
  return `"${title}" has ${count} and is not for use. See "cardwright check", or write a draft with --draft.\n`;
}
