import { lstatSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { windowsReservedNameRegex } from 'filename-reserved-regex';
import { openWorkspace, type Rendered } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, fileName, findCards } from './files.ts';
import { settingsFrom } from './settings.ts';
import { CannotRun, type Surroundings } from './surroundings.ts';
import { writeWhole } from './write-file.ts';

interface ExportOptions {
  readonly to: string;
  readonly draft?: boolean;
  readonly compact?: boolean;
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
  const cards = files.flatMap(({ name }, index) => {
    tell('Proving and rendering file', index + 1, files.length);
    return api.render(name, { workCopy });
  });
  if (cards.length === 0) {
    if (files.length > 0) complain(`There is no card in ${files.map(({ name }) => name).join(', ')}.\n`);
    return exitCodes.couldNotRun;
  }
  const refused = options.draft ? [] : cards.filter(({ errors }) => errors.length > 0);
  const written = cards.filter((card) => !refused.includes(card));
  const to = resolve(folder, options.to);
  for (const [name, card] of named(written))
    write(`${hiddenShown(fileName(writeCard(join(to, name), card), folder))}\n`);
  for (const card of refused) complain(refusal(card));
  if (problems.length > 0) return exitCodes.couldNotRun;
  return refused.length > 0 ? exitCodes.findings : exitCodes.clean;
}

/**
 * Cards of several files may have one name: then a number makes the second another file, also where capitals make no
 * difference. So it does for a name that another system keeps for a device.
 */
function named(cards: readonly Rendered[]): readonly (readonly [name: string, card: Rendered])[] {
  const taken = new Set<string>();
  return cards.map((card) => {
    let name = `${card.name}.html`;
    for (let count = 2; taken.has(name.toLowerCase()) || windowsReservedNameRegex().test(name); count++)
      name = `${card.name}-${count}.html`;
    taken.add(name.toLowerCase());
    return [name, card];
  });
}

function writeCard(path: string, { html }: Rendered): string {
  try {
    mkdirSync(dirname(path), { recursive: true });
  } catch (error) {
    throw new CannotRun(`The card cannot be written, its folder cannot be made: ${(error as Error).message}`);
  }
  refuseToReplace(path);
  writeWhole(path, html);
  return path;
}

/** Replaces a card that was exported before, and nothing else. */
function refuseToReplace(path: string): void {
  const stats = lstatSync(path, { throwIfNoEntry: false });
  if (!stats) return;
  if (stats.isFile() && readFileSync(path, 'utf8').includes(madeByUs)) return;
  throw new CannotRun(
    `"${path}" is there already and is no exported card. Move it away, or name another folder with --to.`,
  );
}

const madeByUs = '<meta name="generator" content="Cardwright">';

function refusal({ title, errors }: Rendered): string {
  const count = errors.length === 1 ? 'an error' : `${errors.length} errors`;
  return `"${title}" has ${count} and is not for use. See "cardwright check", or write a draft with --draft.\n`;
}
