import { resolve } from 'node:path';
import {
  type Comparable,
  type ComparedCard,
  comparedCards,
  comparePage,
  compareSummary,
  openWorkspace,
  standsWords,
} from '../../server/api.ts';
import { hiddenEscaped, hiddenShown } from '../../shared/hidden.ts';
import { defaultSettings } from '../../shared/settings.ts';
import { LineTable, type Place } from '../../shared/text.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { diskProvider, findCards } from './files.ts';
import { readReleased } from './released.ts';
import { settingsFrom } from './settings.ts';
import { CannotRun, type Surroundings } from './surroundings.ts';

interface CompareOptions {
  readonly format: 'text' | 'json' | 'html';
}

/** One of the two that are held against each other. */
export interface Side {
  readonly cards: readonly Comparable[];
  readonly textOf: (file: string) => string;
}

/** Says what is otherwise; ends with 1 where something is. */
export function compareCommand(
  oldPath: string,
  newPath: string,
  { format }: CompareOptions,
  surroundings: Surroundings,
): ExitCode {
  const [old, now] = [sideAt(oldPath, surroundings), sideAt(newPath, surroundings)];
  const cards = comparedCards(old.cards, now.cards);
  const inWords = (place: Place, side: 'old' | 'now') => placeWords(place, side === 'old' ? old : now);
  if (format === 'text') surroundings.write(cards.map(cardText).join('\n'));
  if (format === 'html') surroundings.write(comparePage(cards, inWords));
  if (format === 'json') surroundings.write(`${hiddenEscaped(JSON.stringify(jsonOf(cards, inWords), null, 2))}\n`);
  return cards.every((card) => card.changes.length === 0 && card.old !== undefined && card.now !== undefined)
    ? exitCodes.clean
    : exitCodes.findings;
}

/** A released card brings the texts that it was made from. */
export function sideAt(path: string, surroundings: Surroundings): Side {
  const { folder } = surroundings;
  if (path.endsWith('.html')) return releasedSide(path, resolve(folder, path));
  const { files, problems } = findCards([path], folder);
  if (problems.length > 0) throw new CannotRun(problems.join('\n'));
  const api = openWorkspace(diskProvider(folder, files), settingsFrom(surroundings));
  return sideOf(
    path,
    api,
    files.map(({ name }) => name),
  );
}

function releasedSide(path: string, at: string): Side {
  const released = readReleased(at, { isNamed: true });
  if (!released)
    throw new CannotRun(`"${path}" is no released card. Give a card, a folder of cards or a released card.`);
  const { card, file, texts, settings } = released.release;
  const api = openWorkspace({ readText: (name) => (Object.hasOwn(texts, name) ? texts[name] : undefined) }, () => ({
    ...defaultSettings,
    ...settings,
  }));
  const side = sideOf(path, api, [file]);
  return { ...side, cards: side.cards.filter((one) => one.card.name === card) };
}

function sideOf(
  path: string,
  { comparable, workspace }: ReturnType<typeof openWorkspace>,
  files: readonly string[],
): Side {
  let last: string | undefined;
  // One file of a side at a time stays in memory.
  const opened = (file: string) => {
    if (last !== undefined && last !== file) workspace.letGo(last);
    last = file;
    return comparable(file);
  };
  const cards = files.flatMap((file) => {
    const listed = (workspace.snapshot(file)?.bound.cards ?? []).map((card, index): Comparable => {
      return { card: headOf(card), input: () => (opened(file)[index] as Comparable).input() };
    });
    workspace.letGo(file);
    return listed;
  });
  if (cards.length === 0) throw new CannotRun(`There is no card in "${path}".`);
  return { cards, textOf: workspace.textOf };
}

function headOf({ name, number, title, revision }: Comparable['card']): Comparable['card'] {
  return { name, title, ...(number && { number }), ...(revision && { revision }) };
}

function placeWords({ file, start }: Place, { textOf }: Side): string {
  return `${file}:${new LineTable(textOf(file)).positionAt(start).line + 1}`;
}

function cardText(card: ComparedCard): string {
  const revisions = `${card.title}: revision ${card.old ?? '–'} to revision ${card.now ?? '–'}.`;
  const head = [revisions, compareSummary(card), standsWords(card)].filter(Boolean).join(' ');
  return [head, ...card.changes.map(({ text }) => `  ${text}`)].map((line) => `${hiddenShown(line)}\n`).join('');
}

function jsonOf(cards: readonly ComparedCard[], inWords: (place: Place, side: 'old' | 'now') => string) {
  return {
    cards: cards.map(({ changes, ...card }) => ({
      ...card,
      changes: changes.map(({ was, now, ...change }) => ({
        ...change,
        ...(was && { was: inWords(was, 'old') }),
        ...(now && { now: inWords(now, 'now') }),
      })),
    })),
  };
}
