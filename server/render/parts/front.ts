/** The head of the card: what it is, for what, with whom, how long, with what; and what must be so before it begins. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Seconds, Words } from '../../../shared/card.ts';
import { shortDigest } from '../../../shared/page-text.ts';
import { beforeYouStart } from '../checklists.ts';
import { anchorOf, type Context, openWarnings, positionOf } from '../context.ts';
import { cardsDone, type DoneCard, partsNeeded, toolsNeeded, wordsNeeded } from '../needs.ts';
import { itemStateText } from '../sentences/conditions.ts';
import { spoken } from '../sentences/labels.ts';
import { whichText } from '../sentences/machines.ts';
import { durationText } from '../sentences/times.ts';
import { blankLine, checklist } from './boxes.ts';
import { findingNotes, whereText } from './findings.ts';
import { textNode } from './text.ts';

export function renderHead(context: Context): Element {
  const { card } = context.input;
  const { front } = context.words;
  return h('header.head', [
    ...(context.isDraft ? [h('p.draft-mark', [h('strong', front.draft), ' ', draftMeaning(context)])] : []),
    ...warningBand(context),
    h('h1', { dir: 'auto', ...positionOf(card.place, context) }, card.title),
    h('p.standing-caution', front.standingCaution),
    ...findingNotes(card.extent, card.body, context),
    facts(context),
    ...crewTable(context),
  ]);
}

function draftMeaning({ input: { findings, lowered = [] }, words: { front } }: Context): string {
  const reasons = [
    ...(findings.some(({ level }) => level === 'error') ? [front.draftMeaning] : []),
    ...(lowered.length > 0 ? [front.checksLowered(lowered.join(', '))] : []),
  ];
  return reasons.join(' ');
}

/** What they say, on the first page; that they stand is in the margin of each. */
function warningBand(context: Context): ElementContent[] {
  const warnings = openWarnings(context);
  if (warnings.length === 0) return [];
  const rows = warnings.map((warning) =>
    h('li', { dir: 'auto' }, [h('strong', `${whereText(warning.place, context)}: `), warning.message]),
  );
  return [
    h('div.open-warnings', [h('p', h('strong', context.words.front.openWarnings(warnings.length))), h('ul', rows)]),
  ];
}

function facts(context: Context): Element {
  const { card } = context.input;
  const { front } = context.words;
  const done = cardsDone(context);
  const rows: (readonly [string, ElementContent[], object?])[] = [
    [front.number, [h('strong', card.number?.text ?? '–')]],
    [front.revision, dated([card.revision?.text ?? '–'], card.revision?.date)],
    ...releaseRow(context),
    [front.appliesTo, text(machinesText(context))],
    ...(card.purpose ? [[front.purpose, text(card.purpose)] as const] : []),
    ...timeRow(context),
    [front.tools, toolList(context), card.tools],
    ...partsRow(context),
    ...(['materials', 'references'] as const).map(
      (list) => [front[list], listOf(wordsNeeded(list, context), context)] as const,
    ),
    ...(done.length > 0 ? [[front.does, doneCards(done, context)] as const] : []),
  ];
  return h(
    'dl.facts',
    rows.map(([term, what, part]) =>
      h('div', part ? anchorOf(part, context) : {}, [
        h('dt', term),
        h(part ? 'dd.lines' : 'dd', { dir: 'auto' }, what),
      ]),
    ),
  );
}

function releaseRow({ input: { release }, words: { front } }: Context): (readonly [string, ElementContent[]])[] {
  if (!release) return [];
  const { version } = release.made.tool;
  return [[front.release, text(front.madeFrom(shortDigest(release.digest), version))]];
}

/** Number, revision and title of each, and what it relies on when it is begun. */
function doneCards(done: readonly DoneCard[], context: Context): ElementContent[] {
  const { front } = context.words;
  const items = done.map(({ title, callee }) => {
    const revision = callee.revision && `${front.revision} ${callee.revision.text}`;
    const assumed = callee.assumes.map(({ item, state }) => itemStateText(item, [state], context));
    return h('li', [
      ...dated([callee.number, title, revision], callee.revision?.date),
      ...(assumed.length > 0 ? [h('p', front.whenBegun(context.words.grammar.and(assumed)))] : []),
    ]);
  });
  return [h('ul', items)];
}

/** The date stays on one line. */
const dated = (parts: readonly (string | undefined)[], date: string | undefined): ElementContent[] => [
  textNode(parts.filter(Boolean).join(' · ')),
  ...(date === undefined ? [] : [textNode(' · '), h('time', date)]),
];

const text = (value: string): ElementContent[] => [textNode(value)];

function machinesText({ input: { card, configuration, machines }, words }: Context): string {
  if (machines) return spoken(machines);
  if (configuration)
    return (
      [...configuration].map(([name, value]) => `${spoken(name)} ${spoken(value)}`).join(', ') ||
      words.front.allMachines
    );
  return card.applies ? whichText(card.applies, words) : words.front.allMachines;
}

function listOf(items: readonly Words[], { words }: Context): ElementContent[] {
  return items.length === 0
    ? text(words.front.none)
    : [
        h(
          'ul',
          items.map((item) => h('li', item.text)),
        ),
      ];
}

/** Of a calibrated tool its number and due date are written down. */
function toolList(context: Context): ElementContent[] {
  const { step } = context.words;
  const tools = toolsNeeded(context);
  if (tools.length === 0) return listOf([], context);
  const items = tools.map(({ text: tool, calibrated }) =>
    h('li', [tool, ...(calibrated ? labelled([step.toolNumber, step.dueDate]) : [])]),
  );
  return [h('ul', items)];
}

function partsRow(context: Context): (readonly [string, ElementContent[]])[] {
  const { front, step } = context.words;
  const items = partsNeeded(context).map(({ text: { text: name }, number, quantity, batch, expires }) => {
    const words = [quantity && `${quantity} ×`, name, number && `(${number})`].filter(Boolean).join(' ');
    return h('li', [words, ...labelled([...(batch ? [step.batch] : []), ...(expires ? [step.expires] : [])])]);
  });
  return items.length === 0 ? [] : [[front.parts, [h('ul', items)]]];
}

function labelled(labels: readonly string[]): ElementContent[] {
  return labels.flatMap((label) => [textNode(' '), h('span.blank', [`${label}: `, blankLine('value')])]);
}

interface Time {
  readonly least: Seconds;
  readonly most?: Seconds | undefined;
}

/** At least nothing, and no known end: that says nothing. */
function isKnown({ least, most }: Time): boolean {
  return most !== undefined || !least.equals(0);
}

function timeRow(context: Context): (readonly [string, ElementContent[]])[] {
  const { times } = context.input;
  if (times === undefined || !isKnown(times)) return [];
  return [[context.words.front.time, text(timeText(times, context))]];
}

function timeText(time: Time, { words }: Context): string {
  return words.front.timeOf(durationText(time.least, words), time.most && durationText(time.most, words));
}

/** Who does what: each role, what it asks of a person, how long it takes, and a blank for the name. */
function crewTable(context: Context): ElementContent[] {
  const { card, times } = context.input;
  const { front } = context.words;
  if (card.crew.length === 0) return [];
  const rows = card.crew.map((role) => {
    const time = times?.perRole.find((own) => own.role === role.name);
    return h('tr', { ...positionOf(role.place, context) }, [
      h('th', { scope: 'row', dir: 'auto' }, role.label),
      h('td', { dir: 'auto' }, role.qualified ?? '–'),
      h('td', time && isKnown(time) ? timeText(time, context) : '–'),
      h('td.fill', ''),
    ]);
  });
  const heads = [front.role, front.qualification, front.time, front.name];
  return [
    h('table.crew', [
      h('caption', front.crew),
      h(
        'thead',
        h(
          'tr',
          heads.map((head) => h('th', { scope: 'col' }, head)),
        ),
      ),
      h('tbody', rows),
    ]),
  ];
}

export function renderBeforeYouStart(context: Context): Element {
  const { front, heading } = context.words;
  const { input } = context;
  const asked = beforeYouStart(context);
  const isRelying = input.beforeYouStart.length > 0;
  return h('section.before', anchorOf(input.beforeYouStart, context), [
    h('h2', heading.beforeYouStart),
    h('p', isRelying ? front.relies : front.nothingRelied),
    ...checklist(asked),
  ]);
}
