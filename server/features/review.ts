/** What a reviewer is shown in the editor: how a file differs from an older one, and how all cards stand. */
import type { Card } from '../../shared/card.ts';
import type { Compared } from '../../shared/protocol.ts';
import type { Release } from '../../shared/release.ts';
import { defaultSettings, type Settings } from '../../shared/settings.ts';
import { LineTable, type Place } from '../../shared/text.ts';
import { openWorkspace } from '../api.ts';
import { comparedCards } from '../compare/cards.ts';
import type { Comparable } from '../compare/compare.ts';
import { comparePage } from '../compare/page.ts';
import { releaseOf } from '../release.ts';
import { hasSameSources, lastRelease, releaseWords } from '../release-record.ts';
import { renderInput } from '../render-input.ts';
import type { PageContext } from './card-page.ts';

/** An older revision: a file, and the texts that are known of it and of what it uses. Null where there is none. */
export interface Older {
  readonly file: string;
  readonly texts: ReadonlyMap<string, string | null>;
  readonly settings: Settings;
}

/** The cards of a file as they were. Other files that it uses are asked for first, by their names. */
export function olderCards({ file, texts, settings }: Older): { needs: readonly string[] } | Revision {
  const readText = (name: string) => texts.get(name) ?? undefined;
  const { workspace, comparable } = openWorkspace({ readText }, () => settings);
  const needs = workspace.snapshot(file)?.missing.filter((name) => !texts.has(name) && name.endsWith('.card')) ?? [];
  return needs.length > 0 ? { needs } : { cards: comparable(file), textOf: workspace.textOf };
}

/** One of the two that are compared. */
export interface Revision {
  readonly cards: readonly Comparable[];
  readonly textOf: (file: string) => string;
}

export function currentCards({ snapshot, ...context }: PageContext): Revision {
  const cards = snapshot.bound.cards.map((card) => ({
    card,
    input: () => renderInput({ ...context, snapshot, card }, {}),
  }));
  return { cards, textOf: context.workspace.textOf };
}

/** The cards of a file as they were last released. */
export function releasedCards(context: PageContext, releases: readonly Release[]): Revision | undefined {
  const sides = context.snapshot.bound.cards.flatMap((card) => {
    const release = lastRelease(sourcesOf(card, context), releases);
    if (!release) return [];
    const { file, texts, settings } = release;
    const { workspace, comparable } = openWorkspace({ readText: (name) => texts[name] }, () => ({
      ...defaultSettings,
      ...settings,
    }));
    return comparable(file)
      .filter((one) => one.card.name === release.card)
      .map((one) => ({ one, textOf: workspace.textOf }));
  });
  const [first] = sides;
  return first && { cards: sides.map(({ one }) => one), textOf: first.textOf };
}

export function comparison(old: Revision, now: Revision): Compared {
  if (old.cards.length === 0) return { type: 'nothing', why: 'There is no card in the older text.' };
  if (now.cards.length === 0) return { type: 'nothing', why: 'There is no card in this file.' };
  const inWords = ({ file, start }: Place, side: 'old' | 'now') => {
    const { textOf } = side === 'old' ? old : now;
    return `${file.split('/').at(-1)}:${new LineTable(textOf(file)).positionAt(start).line + 1}`;
  };
  return { type: 'page', html: comparePage(comparedCards(old.cards, now.cards), inWords) };
}

/** How a card stands to its releases, whatever settings and version of the tool made them; undefined where it has none. */
export function standing(
  card: Card,
  context: Omit<PageContext, 'findings' | 'accepted'>,
  releases: readonly Release[],
): string | undefined {
  return releases.length === 0 ? undefined : releaseWords(sourcesOf(card, context), releases, hasSameSources);
}

function sourcesOf(card: Card, context: Omit<PageContext, 'findings' | 'accepted'>): Release {
  return releaseOf({ ...context, card }, { version: '', workCopy: '' });
}
