/** The changes of cards as a page that a reviewer reads beside the new card. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Place } from '../../shared/text.ts';
import { page } from '../pages/page.ts';
import { looks, type Mark, mark, type Standing, standingMarks } from '../pages/standing.ts';
import { table } from '../render/parts/table.ts';
import type { Change, ChangeSort } from './change.ts';

/** One card of both, or a card of only one of them. */
export interface ComparedCard {
  readonly title: string;
  /** Which revision it was and is; absent on the side where there is no such card. */
  readonly old?: string;
  readonly now?: string;
  /** How the new card stands by its own findings; absent where there is none. */
  readonly stands?: Standing;
  readonly changes: readonly Change[];
}

/** `inWords` says where a place of the old or of the new texts is. */
export function comparePage(
  cards: readonly ComparedCard[],
  inWords: (place: Place, side: 'old' | 'now') => string,
): string {
  const told = cards.filter(({ old, now, changes }) => !old || !now || changes.length > 0);
  return page('What has changed', [
    ...(cards.length > 1 ? [overview(cards)] : []),
    ...(cards.length > 1 ? told : cards).flatMap((card) => cardSection(card, inWords)),
  ]);
}

/** What a reviewer looks at first stands first. */
const groups: readonly (readonly [heading: string, sorts: readonly ChangeSort[]])[] = [
  ['Findings', ['finding']],
  ['Limits and times', ['limit', 'time']],
  ['Warnings', ['admonition']],
  ['Steps and states', ['step', 'state', 'stage']],
  ['Ways through the card', ['way']],
  ['Equipment and rules', ['equipment']],
  ['Who, with what, and under which title', ['role', 'head']],
  ['Wording and sources', ['wording']],
];

function cardSection(card: ComparedCard, inWords: (place: Place, side: 'old' | 'now') => string): ElementContent[] {
  const { title, old, now, changes } = card;
  const tables = groups.flatMap(([heading, sorts]) => {
    const told = changes.filter(({ sort }) => sorts.includes(sort));
    return told.length === 0 ? [] : [h('h3', heading), changeTable(told, inWords)];
  });
  const revisions = `Revision ${old ?? '–'} to revision ${now ?? '–'}`;
  return [
    h('section', [
      h('h2', { dir: 'auto' }, title),
      h('p', revisions),
      h('p', summary(card)),
      ...stands(card),
      ...tables,
    ]),
  ];
}

/** Whether the new card is safe by itself, whatever has changed. */
function stands({ stands }: ComparedCard): ElementContent[] {
  return stands ? [h('p', ['The new card: ', ...marks(stands)])] : [];
}

function marks(standing: Standing): ElementContent[] {
  return standingMarks(standing).flatMap((one, index) => [...(index > 0 ? [text(' ')] : []), mark(one)]);
}

const text = (value: string): ElementContent => ({ type: 'text', value });

/** Of many cards, each in a row; those in which nothing is otherwise stand nowhere else. */
function overview(cards: readonly ComparedCard[]): Element {
  const rows = cards.map((card) =>
    h('tr', [
      h('th', { scope: 'row', dir: 'auto' }, card.title),
      h('td.narrow', `${card.old ?? '–'} to ${card.now ?? '–'}`),
      h('td', summary(card)),
      h('td.narrow', card.stands ? marks(card.stands) : '–'),
    ]),
  );
  return table(['Card', 'Revision', 'Changes', 'The new card'], rows, 'All cards');
}

/** As `stands`, for a terminal. */
export function standsWords({ stands }: ComparedCard): string | undefined {
  return (
    stands &&
    `The new card: ${standingMarks(stands)
      .map(({ word }) => word)
      .join(', ')}.`
  );
}

export function summary({ old, now, changes }: ComparedCard): string {
  if (old === undefined) return 'The card is new.';
  if (now === undefined) return 'The card is gone.';
  if (changes.length === 0) return 'Nothing is otherwise for whoever works with it.';
  return changes.length === 1 ? 'One change.' : `${changes.length} changes.`;
}

function changeTable(changes: readonly Change[], inWords: (place: Place, side: 'old' | 'now') => string): Element {
  const rows = changes.map((change) => {
    const place = (of: Place | undefined, side: 'old' | 'now') => h('td.place.narrow', of ? inWords(of, side) : '–');
    return h('tr', [
      h('td.narrow', mark(markOf(change))),
      h('td', { dir: 'auto' }, change.text),
      place(change.was, 'old'),
      place(change.now, 'now'),
    ]);
  });
  return table(['Change', 'What', 'Old', 'New'], rows);
}

/** In a word, and in colour beside it, whether it asks for care. */
function markOf({ sort, level, limit, was, now }: Change): Mark {
  if (level) return now ? { word: `new ${level}`, look: looks[level] } : { word: 'mended', look: 'good' };
  if (limit === 'looser') return { word: 'looser', look: 'bad' };
  if (limit === 'tighter') return { word: 'tighter', look: 'care' };
  if (was === undefined) return { word: 'new', look: 'care' };
  if (now === undefined) return { word: 'gone', look: sort === 'admonition' ? 'bad' : 'care' };
  return { word: 'changed', look: 'plain' };
}
