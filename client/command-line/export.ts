import { mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { openWorkspace, type Rendered } from '../../server/api.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, fileName, findCards } from './files.ts';
import { settingsFrom } from './settings.ts';
import { CannotRun, type Surroundings } from './surroundings.ts';

interface ExportOptions {
  readonly to: string;
  readonly draft?: boolean;
}

/** Writes every card that has no error; with `draft`, the others too. */
export function exportCommand(paths: readonly string[], options: ExportOptions, surroundings: Surroundings): ExitCode {
  const { folder, complain, write } = surroundings;
  const { files, problems } = findCards(paths, folder);
  for (const problem of problems) complain(`${problem}\n`);
  const api = openWorkspace(diskProvider(folder), settingsFrom(surroundings));
  const workCopy = surroundings.workCopy();
  const cards = files.flatMap((file) => api.render(file, { workCopy }));
  if (cards.length === 0) {
    if (files.length > 0) complain(`There is no card in ${files.join(', ')}.\n`);
    return exitCodes.couldNotRun;
  }
  const refused = options.draft ? [] : cards.filter(({ errors }) => errors.length > 0);
  const written = cards.filter((card) => !refused.includes(card));
  const to = resolve(folder, options.to);
  for (const [name, card] of named(written)) write(`${fileName(writeCard(join(to, name), card), folder)}\n`);
  for (const card of refused) complain(refusal(card));
  if (problems.length > 0) return exitCodes.couldNotRun;
  return refused.length > 0 ? exitCodes.findings : exitCodes.clean;
}

/** Cards of several files may have one name: then a number makes the second another file. */
function named(cards: readonly Rendered[]): ReadonlyMap<string, Rendered> {
  const names = new Map<string, Rendered>();
  for (const card of cards) {
    let name = `${card.name}.html`;
    for (let count = 2; names.has(name); count++) name = `${card.name}-${count}.html`;
    names.set(name, card);
  }
  return names;
}

function writeCard(path: string, { html }: Rendered): string {
  try {
    mkdirSync(join(path, '..'), { recursive: true });
    writeFileSync(path, html);
    return path;
  } catch (error) {
    throw new CannotRun(`The card cannot be written: ${(error as Error).message}`);
  }
}

function refusal({ title, errors }: Rendered): string {
  const count = errors.length === 1 ? 'an error' : `${errors.length} errors`;
  return `"${title}" has ${count} and is not for use. See "cardwright check", or write a draft with --draft.\n`;
}
