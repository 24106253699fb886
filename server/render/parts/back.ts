/** What stands after the steps: how the machine is left, what was accepted, which revision this is, and the record of the work. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import { type Card, signOffSorts } from '../../../shared/card.ts';
import { alteredAtStops, type Checked, leftAtEnd, putBackAtEnd } from '../checklists.ts';
import { anchorOf, type Context } from '../context.ts';
import type { RenderInput } from '../input.ts';
import { recordForm } from '../record-form.ts';
import { bySource, runs, type Traced, tracedIn } from '../sources.ts';
import { blankLine, checklist } from './boxes.ts';
import { whereText } from './findings.ts';
import { table } from './table.ts';

export function renderBack(context: Context): ElementContent[] {
  return [
    ...leftState(context),
    ...acceptedDeviations(context),
    ...sources(context),
    ...revisionRecord(context),
    record(context),
  ];
}

function leftState(context: Context): ElementContent[] {
  const { heading, back } = context.words;
  const { atEnd } = context.input;
  const lists = [
    ...listed(back.putBack, putBackAtEnd(context)),
    ...listed(back.left, leftAtEnd(context)),
    // Otherwise it stands on the page for stops.
    ...(context.stopStages.length === 0 ? alteredList(context) : []),
  ];
  return lists.length === 0 ? [] : [h('section.left', anchorOf(atEnd, context), [h('h2', heading.atTheEnd), ...lists])];
}

/** Whoever goes on after a stop finds the machine as the card had left it. */
export function alteredList(context: Context): ElementContent[] {
  return listed(context.words.back.alteredAtStops, alteredAtStops(context));
}

function listed(meaning: string, lines: readonly Checked[]): ElementContent[] {
  return lines.length === 0 ? [] : [h('p', meaning), ...checklist(lines)];
}

function acceptedDeviations(context: Context): ElementContent[] {
  const { heading, back } = context.words;
  const { accepted } = context.input;
  if (accepted.length === 0) return [];
  const rows = accepted.map(({ code, finding, because, by, where }) =>
    h('tr', { dir: 'auto' }, [
      h('th', { scope: 'row' }, whereText(where, context)),
      h('td', [...(finding === undefined ? [] : [finding, ' ']), h('code', code)]),
      h('td', because),
      by === undefined ? h('td.fill', '') : h('td', by),
    ]),
  );
  const heads = [back.where, back.deviation, back.because, back.acceptedBy];
  return [h('section.accepted', [h('h2', heading.accepted), table(heads, rows)])];
}

/** Only where the card names one: then also what comes from none. A rulebook's rules name theirs on its page. */
function sources({ input: { card }, words }: Context): ElementContent[] {
  const all = tracedIn(card);
  if (!all.some(({ sort, sources: named }) => sort !== 'rule' && named.length > 0)) return [];
  const { sources: named, without } = bySource(all);
  const said = (what: readonly Traced[]) => {
    const steps = runs(what.flatMap(({ step }) => step ?? []));
    const others = what.filter(({ step }) => step === undefined).map((one) => one.words);
    return [...steps.map(([first, last]) => words.step.steps(first, last)), ...others].join('; ');
  };
  const row = (source: string, what: readonly Traced[]) =>
    h('tr', { dir: 'auto' }, [h('th', { scope: 'row' }, source), h('td', said(what))]);
  const rows = [
    ...named.map(({ source, what }) => row(source, what)),
    ...(without.length > 0 ? [row(words.back.noSource, without)] : []),
  ];
  return [
    h('section.sources', [h('h2', words.heading.sources), table([words.back.source, words.back.comesFromIt], rows)]),
  ];
}

/** The card knows its newest revision; earlier and later ones are written in by hand. */
function revisionRecord({ input, words }: Context): ElementContent[] {
  const { revision } = input.card;
  const own = h('tr', [
    h('td', { dir: 'auto' }, revision?.text ?? '–'),
    h('td', revision?.date ?? '–'),
    h('td.fill', ''),
    h('td.fill', ''),
  ]);
  const empty = () =>
    h(
      'tr.to-fill',
      Array.from({ length: 4 }, () => h('td.fill', '')),
    );
  const heads = [words.front.revision, words.front.date, words.back.change, words.step.sign];
  const revisions = table(heads, [own, empty(), empty()]);
  return [
    h('section.revisions', [
      h('h2', words.heading.revisions),
      revisions,
      signOffs(input.card, words),
      ...changesSince(input, words),
    ]),
  ];
}

/** What the bars beside the steps stand for, and what is gone and has none. */
function changesSince({ since }: RenderInput, { back }: Context['words']): Element[] {
  if (!since) return [];
  const changes = since.changes.map(({ text }) => h('li', { dir: 'auto' }, text));
  return [
    h('h3', back.changesSince(since.revision)),
    changes.length === 0 ? h('p', back.noChanges) : h('ul.changes', changes),
  ];
}

/** Who answers for this revision; a blank where the card does not name one. */
function signOffs({ signOffs }: Card, { front }: Context['words']): Element {
  const cells = signOffSorts.map((sort) => {
    const { text, date } = signOffs[sort] ?? {};
    return text === undefined ? h('td.fill', '') : h('td', { dir: 'auto' }, [text, date].filter(Boolean).join(' · '));
  });
  return table(
    signOffSorts.map((sort) => front.signOff[sort]),
    [h('tr', cells)],
  );
}

function record(context: Context): ElementContent {
  const { title, meaning, fields } = recordForm(context);
  return h('section.record', [
    h('h2', title),
    ...(meaning === '' ? [] : [h('p', { dir: 'auto' }, meaning)]),
    h(
      'dl.record-fields',
      fields.map(({ text }) => h('div', [h('dt', { dir: 'auto' }, text), h('dd', blankLine('wide'))])),
    ),
  ]);
}
