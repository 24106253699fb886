import { openWorkspace, type Rendered } from '../../server/api.ts';
import { sideAt } from './compare.ts';
import type { ExitCode } from './exit-codes.ts';
import { diskProvider, findCards } from './files.ts';
import { settingsFrom } from './settings.ts';
import type { Surroundings } from './surroundings.ts';
import { writeCards } from './write-cards.ts';

interface ExportOptions {
  readonly to: string;
  readonly draft?: boolean;
  readonly compact?: boolean;
  readonly since?: string;
}

/** Writes every card that has no error; with `draft`, the others too. */
export function exportCommand(paths: readonly string[], options: ExportOptions, surroundings: Surroundings): ExitCode {
  const { folder } = surroundings;
  const found = findCards(paths, folder);
  const settingsOf = settingsFrom(surroundings);
  const api = openWorkspace(diskProvider(folder, found.files), (file) => ({
    ...settingsOf(file),
    ...(options.compact && { print: 'compact' }),
  }));
  const workCopy = surroundings.workCopy();
  const older = options.since === undefined ? undefined : sideAt(options.since, surroundings).cards;
  return writeCards(
    found,
    {
      api,
      cardsOf: (file) => api.render(file, { workCopy, ...(older && { older }) }),
      refusalOf: (card) => (options.draft || card.errors.length === 0 ? undefined : refusal(card)),
      stemOf: ({ name }) => name,
      contentOf: ({ html }) => html,
      to: options.to,
    },
    surroundings,
  );
}

function refusal({ title, errors }: Rendered): string {
  const count = errors.length === 1 ? 'an error' : `${errors.length} errors`;
  return `"${title}" has ${count} and is not for use. See "cardwright check", or write a draft with --draft.\n`;
}
