/** The cards of a folder as one page: how each stands, what was found and accepted, and which rules it keeps. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Finding } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { durationWords } from '../../shared/quantity.ts';
import { capital, type Place } from '../../shared/text.ts';
import { page } from '../pages/page.ts';
import { looks, type Mark, mark, standingMarks, standingOf } from '../pages/standing.ts';
import { table } from '../render/parts/table.ts';
import { runs, type Traced } from '../render/sources.ts';
import type { ReportedCard, ReportedRule, RuleState } from './data.ts';

export interface ReportContext {
  readonly placeWords: (place: Place) => string;
  /** Absent where there is no system for versions. */
  readonly versions?: Versions;
  /** Sorts and filters the tables. */
  readonly script: string;
}

/** Who wrote a line as it stands, and when. */
export interface Written {
  readonly by: string;
  readonly on: Date;
}

export interface Versions {
  /** Undefined where the line is not committed. */
  readonly writtenAt: (place: Place) => Written | undefined;
  /** Ages are counted up to here. */
  readonly now: Date;
}

export function reportPage(cards: readonly ReportedCard[], context: ReportContext): string {
  const { versions } = context;
  const content = [
    ...(versions ? [h('p', `The ages are those on ${dayOf(versions.now)}.`)] : []),
    h('div.controls', [h('label', ['Show only rows with ', h('input', { id: 'filter', type: 'search' })])]),
    section('cards', 'Cards', [cardTable(cards)]),
    section('findings', 'Findings', findings(cards, context)),
    section('accepted', 'Accepted', [acceptedTable(cards, context)]),
    section('rules', 'Rules', rules(cards, context)),
    section('not-followed', 'Steps that the proof does not follow', [notFollowedTable(cards, context)]),
    section('sources', 'Sources', [sourceTable(cards, context)]),
    section('equipment', 'Files and the cards that use them', [usedTable(cards)]),
    section('settings', 'Checks that the settings switch off or lower', loweredChecks(cards)),
  ];
  return page('Report of the cards', content, context.script);
}

function section(id: string, heading: string, content: readonly ElementContent[]): Element {
  return h('section', { 'aria-labelledby': id }, [h('h2', { id }, heading), ...content]);
}

/** A table that is wider than a sheet of glass is moved by itself. */
function sortable(
  heads: readonly string[],
  rows: readonly Element[],
  caption: string,
  none: string,
  look?: string,
): Element {
  if (rows.length === 0) return h('p', none);
  return h(look === undefined ? 'div.wide' : `div.wide.${look}`, { tabIndex: 0, role: 'region', ariaLabel: caption }, [
    table(heads, rows, caption),
  ]);
}

const nameOf = ({ number, title }: ReportedCard) => [number, title].filter(Boolean).join(' · ');

/** Never broken at its hyphens. */
function date(text: string | undefined, before = ''): ElementContent[] {
  return text === undefined ? [] : [h('span', before), h('span.narrow', text)];
}

function cell(text: string): Element {
  return h('td', { dir: 'auto' }, text);
}

// ---------------------------------------------------------------- cards

function cardTable(cards: readonly ReportedCard[]): Element {
  const isReleaseAsked = cards.some(({ released }) => released !== undefined);
  const rows = cards.map((one) => {
    const { number, title, revision, file, released, proved, coverage } = one;
    return h('tr', [
      h('th.narrow', { scope: 'row', dir: 'auto' }, number ?? '–'),
      cell(title),
      h('td', { dir: 'auto' }, [revision?.text ?? '–', ...date(revision?.date, ' · ')]),
      h('td', standingMarks(standingOf(one)).slice(0, 1).map(mark)),
      ...(isReleaseAsked ? [cell(released ?? 'never released')] : []),
      cell(proved ? timeWords(proved.time) : 'not proved'),
      cell(proved ? `${proved.configurations}` : '–'),
      cell(`${coverage.followedSteps} of ${coverage.steps}`),
      h('td.place', file),
    ]);
  });
  const heads = [
    'Number',
    'Title',
    'Revision',
    'State',
    ...(isReleaseAsked ? ['Release'] : []),
    'Time',
    'Configurations',
    'Steps that the proof follows',
    'File',
  ];
  return sortable(heads, rows, 'All cards', 'There is no card.');
}

function timeWords({ least, most }: NonNullable<ReportedCard['proved']>['time']): string {
  if (most === undefined) return least.equals(0) ? 'not known' : `at least ${durationWords(least)}`;
  return least.equals(most) ? durationWords(least) : `${durationWords(least)} to ${durationWords(most)}`;
}

// ---------------------------------------------------------------- findings

function findings(cards: readonly ReportedCard[], context: ReportContext): ElementContent[] {
  const rows = cards.flatMap((card) => card.findings.map((finding) => findingRow(card, finding, context)));
  return [
    sortable(
      ['Card', 'Level', 'Code', 'What, and the way that shows it', 'Place'],
      rows,
      'All findings',
      'Nothing is found.',
    ),
  ];
}

function findingRow(
  card: ReportedCard,
  { level, code, message, path, place }: Finding,
  { placeWords }: ReportContext,
): Element {
  const steps = path.map((step) =>
    h('li', [h('span', { dir: 'auto' }, step.text), ' ', h('span.place', placeWords(step.place))]),
  );
  return h('tr', [
    h('th', { scope: 'row', dir: 'auto' }, nameOf(card)),
    h('td', mark({ word: level, look: looks[level] })),
    h('td.narrow', h('code', code)),
    h('td', [h('p', { dir: 'auto' }, message), ...(steps.length > 0 ? [h('ol', steps)] : [])]),
    h('td.place', placeWords(place)),
  ]);
}

function acceptedTable(cards: readonly ReportedCard[], { placeWords, versions }: ReportContext): Element {
  const rows = cards.flatMap((card) =>
    card.accepted.map(({ code, finding, because, by, where, acceptance }) =>
      h('tr', [
        h('th', { scope: 'row', dir: 'auto' }, nameOf(card)),
        h('td', h('code', code)),
        cell(finding ?? '–'),
        cell(because),
        cell(by ?? 'still to be signed'),
        ...(versions ? writtenCells(versions.writtenAt(acceptance), versions.now) : []),
        h('td.place', placeWords(where)),
      ]),
    ),
  );
  return sortable(
    ['Card', 'Code', 'Finding', 'Because', 'Accepted by', ...(versions ? ['Committed', 'Age in days'] : []), 'Place'],
    rows,
    'All acceptances',
    'Nothing is accepted.',
  );
}

function writtenCells(written: Written | undefined, now: Date): Element[] {
  if (!written) return [h('td', 'not committed'), h('td', '–')];
  const { by, on } = written;
  const days = Math.max(0, Math.floor((now.getTime() - on.getTime()) / 86_400_000));
  return [h('td', { dir: 'auto' }, [`${by} · `, ...date(dayOf(on))]), h('td', `${days}`)];
}

/** In UTC. */
const dayOf = (moment: Date) => moment.toISOString().slice(0, 10);

/** Those for people only stand with the others: whoever reviews judges whether they are. */
function notFollowedTable(cards: readonly ReportedCard[], { placeWords }: ReportContext): Element {
  const rows = cards.flatMap((card) =>
    card.coverage.notFollowed.map(({ number, words, sort, why, place }) =>
      h('tr', [
        h('th', { scope: 'row', dir: 'auto' }, nameOf(card)),
        cell(`${number}. ${words}`),
        h('td', [mark(sort === 'people' ? { word: 'for people', look: 'plain' } : { word: 'not seen', look: 'care' })]),
        cell(`${capital(why)}.`),
        h('td.place', placeWords(place)),
      ]),
    ),
  );
  return sortable(
    ['Card', 'Step', 'Sort', 'Why', 'Place'],
    rows,
    'All steps that the proof does not follow',
    'The proof follows every step.',
  );
}

// ---------------------------------------------------------------- rules

const stateMarks: Readonly<Record<RuleState, Mark>> = {
  holds: { word: 'holds', look: 'good' },
  untouched: { word: 'not begun', look: 'plain' },
  accepted: { word: 'accepted', look: 'care' },
  broken: { word: 'broken', look: 'bad' },
  'not proved': { word: 'not proved', look: 'bad' },
};

/** One rule in all cards that reach it. */
interface RuleRow {
  readonly rule: ReportedRule;
  readonly states: ReadonlyMap<ReportedCard, RuleState>;
}

function rules(cards: readonly ReportedCard[], { placeWords }: ReportContext): ElementContent[] {
  const rows = ruleRows(cards);
  if (rows.length === 0) return [h('p', 'There is no rule.')];
  const sources = rows.map(({ rule }) =>
    h('tr', [
      h('th', { scope: 'row', dir: 'auto' }, rule.title),
      cell(rule.because.join(' ') || '–'),
      cell(rule.sources.join('; ') || 'no source'),
      h('td.place', placeWords(rule.place)),
    ]),
  );
  return [
    sortable(['Rule', 'Because', 'Source', 'Place'], sources, 'Rules in force, with their sources', ''),
    h(
      'p',
      'Holds: proved on every path. Not begun: it holds, and no step sets or looks at an item that it begins with. –: the card does not use it.',
    ),
    ...matrices(cards, rows),
  ];
}

/** So many columns fit on a sheet of paper, upright and as they are read. */
const cardsAcross = 32;
const cardsAcrossFlat = 9;

/** Each with the rules that one of its cards uses. */
function matrices(cards: readonly ReportedCard[], rules: readonly RuleRow[]): Element[] {
  const parts = Array.from({ length: Math.ceil(cards.length / cardsAcross) }, (_, index) =>
    cards.slice(index * cardsAcross, (index + 1) * cardsAcross),
  );
  return parts.flatMap((part) => {
    const rows = rules
      .filter(({ states }) => part.some((card) => states.has(card)))
      .map(({ rule, states }) =>
        h('tr', [
          h('th', { scope: 'row', dir: 'auto' }, rule.title),
          ...part.map((card) => h('td', stateCell(states.get(card)))),
        ]),
      );
    const heads = ['Rule', ...part.map(({ number, name }) => number ?? name)];
    return rows.length === 0
      ? []
      : [sortable(heads, rows, 'Each rule in each card', '', part.length > cardsAcrossFlat ? 'upright' : undefined)];
  });
}

function stateCell(state: RuleState | undefined): ElementContent[] {
  return state === undefined ? [{ type: 'text', value: '–' }] : [mark(stateMarks[state])];
}

function ruleRows(cards: readonly ReportedCard[]): RuleRow[] {
  const rows = new Map<string, { rule: ReportedRule; states: Map<ReportedCard, RuleState> }>();
  for (const card of cards)
    for (const rule of card.rules) {
      const key = `${rule.place.file} ${rule.place.start}`;
      getOrInsert(rows, key, () => ({ rule, states: new Map() })).states.set(card, rule.state);
    }
  return [...rows.values()];
}

// ---------------------------------------------------------------- sources

/** What hangs on each source, and last what names none; what several cards come to is told once. */
function sourceTable(cards: readonly ReportedCard[], { placeWords }: ReportContext): Element {
  const seen = new Set<string>();
  const rows = cards.flatMap((card) => {
    const { traced } = card;
    const alone = traced.filter(({ step, sources }) => step !== undefined && sources.length === 0);
    const bare = alone.length > 1 ? alone : [];
    const others = traced
      .filter((one) => !bare.includes(one))
      .flatMap((one) => {
        const place = placeWords(one.place);
        const sources = one.sources.length > 0 ? one.sources : ['no source'];
        return sources.flatMap((source) => {
          const key = JSON.stringify([source, place, one.words]);
          if (seen.has(key)) return [];
          seen.add(key);
          const named = one.step === undefined ? one.words : [`step ${one.step}`, one.words].filter(Boolean).join(': ');
          return [
            h('tr', [
              h(one.sources.length > 0 ? 'th' : 'th.narrow', { scope: 'row', dir: 'auto' }, source),
              h('td.narrow', one.sort),
              cell(named),
              cell(nameOf(card)),
              h('td.place', place),
            ]),
          ];
        });
      });
    return [...others, ...stepsWithout(bare, card, placeWords(card.place))];
  });
  return sortable(
    ['Source', 'Sort', 'What comes from it', 'Card', 'Place'],
    rows,
    'What comes from which source',
    'There is nothing to name a source for.',
  );
}

/** A card of many steps has one row for those that name no source. */
function stepsWithout(bare: readonly Traced[], card: ReportedCard, place: string): Element[] {
  if (bare.length === 0) return [];
  const stretches = runs(bare.flatMap(({ step }) => step ?? []));
  const numbers = stretches.map(([first, last]) => (first === last ? first : `${first} to ${last}`)).join(', ');
  return [
    h('tr', [
      h('th.narrow', { scope: 'row' }, 'no source'),
      cell('step'),
      cell(`steps ${numbers}`),
      cell(nameOf(card)),
      h('td.place', place),
    ]),
  ];
}

// ---------------------------------------------------------------- files and settings

function usedTable(cards: readonly ReportedCard[]): Element {
  const users = new Map<string, string[]>();
  for (const card of cards) for (const file of card.uses) users.set(file, [...(users.get(file) ?? []), nameOf(card)]);
  const rows = [...users]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, names]) =>
      h('tr', [
        h('th.place', { scope: 'row' }, file),
        h('td', `${names.length}`),
        h(
          'td',
          h(
            'ul',
            names.map((name) => h('li', { dir: 'auto' }, name)),
          ),
        ),
      ]),
    );
  return sortable(
    ['File', 'Cards', 'Which a change of it touches'],
    rows,
    'Files that cards use',
    'No card uses another file.',
  );
}

function loweredChecks(cards: readonly ReportedCard[]): ElementContent[] {
  const lowered = new Map<string, string[]>();
  for (const card of cards)
    for (const check of card.lowered) lowered.set(check, [...(lowered.get(check) ?? []), nameOf(card)]);
  if (lowered.size === 0) return [h('p', 'None.')];
  return [
    h(
      'ul',
      [...lowered].map(([check, names]) => h('li', [h('code', check), ` for ${names.join(', ')}`])),
    ),
  ];
}
