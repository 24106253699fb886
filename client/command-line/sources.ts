import { openWorkspace, type Traced, tracedIn } from '../../server/api.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { LineTable } from '../../shared/text.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, findCards } from './files.ts';
import { settingsFrom } from './settings.ts';
import { CannotRun, type Surroundings } from './surroundings.ts';

interface SourcesOptions {
  readonly from?: string;
  readonly none?: boolean;
}

/** Says by source what hangs on it, each with its place; what several cards come to stands once. */
export function sourcesCommand(
  paths: readonly string[],
  options: SourcesOptions,
  surroundings: Surroundings,
): ExitCode {
  const { folder, complain, write } = surroundings;
  const { files, problems } = findCards(paths, folder);
  for (const problem of problems) complain(`${problem}\n`);
  const { workspace } = openWorkspace(diskProvider(folder, files), settingsFrom(surroundings));
  const cards = files.flatMap(({ name }) => workspace.snapshot(name)?.bound.cards ?? []);
  if (cards.length === 0) throw new CannotRun('There is no card to look for sources in.');
  const bySource = new Map<string, Set<string>>();
  for (const card of cards) {
    for (const one of tracedIn(card)) {
      for (const source of asked(one, options)) {
        const lines = getOrInsert(bySource, source, () => new Set());
        lines.add(`  ${placeOf(one, workspace.textOf)}: ${wordsOf(one)}`);
      }
    }
  }
  const sorted = [...bySource].sort(([one], [other]) => (one < other ? -1 : 1));
  for (const [source, lines] of sorted) write(`${[source, ...lines].map(hiddenShown).join('\n')}\n`);
  if (sorted.length === 0) write(nothing(options));
  return problems.length > 0 ? exitCodes.couldNotRun : exitCodes.clean;
}

const noSource = 'No source named';

function nothing({ from, none }: SourcesOptions): string {
  if (none) return 'Everything names a source.\n';
  return from === undefined ? 'Nothing names a source.\n' : 'Nothing names such a source.\n';
}

function asked({ sources }: Traced, { from, none }: SourcesOptions): readonly string[] {
  if (none) return sources.length === 0 ? [noSource] : [];
  const words = from?.toLowerCase() ?? '';
  return sources.filter((source) => source.toLowerCase().includes(words));
}

function placeOf({ place }: Traced, textOf: (file: string) => string): string {
  return `${place.file}:${new LineTable(textOf(place.file)).positionAt(place.start).line + 1}`;
}

function wordsOf({ sort, step, words }: Traced): string {
  return [step === undefined ? sort : `step ${step}`, words].filter(Boolean).join(': ');
}
