/** What stands after the steps: how the machine is left, what was accepted, which revision this is, and the record of the work. */
import type { ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Context } from '../context.ts';
import type { ItemInState } from '../input.ts';
import { stateText } from '../language/kinds.ts';
import { recordForm } from '../record-form.ts';
import { capitalised, labelText } from '../sentences/labels.ts';
import { blankLine } from './boxes.ts';
import { whereText } from './findings.ts';
import { table } from './table.ts';

export function renderBack(context: Context): ElementContent[] {
  return [...leftState(context), ...acceptedDeviations(context), ...revisionRecord(context), record(context)];
}

function leftState(context: Context): ElementContent[] {
  const { input, words } = context;
  const { putBack, card } = input;
  if (putBack.length === 0 && card.leaves.length === 0) return [];
  return [
    h('section.left', [
      h('h2', words.heading.atTheEnd),
      ...statesTable(words.back.putBack, putBack, context),
      ...statesTable(words.back.left, card.leaves, context),
    ]),
  ];
}

function statesTable(meaning: string, states: readonly ItemInState[], context: Context): ElementContent[] {
  if (states.length === 0) return [];
  const { back, tag } = context.words;
  const withReasons = states.some(({ because }) => because);
  const rows = states.map(({ item, state, because }) =>
    h('tr', { dir: 'auto' }, [
      h('th', { scope: 'row' }, capitalised(labelText(item, 'name and place'), tag)),
      h('td', stateText(item.kind, state, item.label, context.words)),
      ...(withReasons ? [h('td', because ?? '–')] : []),
    ]),
  );
  return [table([back.item, back.isNow, ...(withReasons ? [back.because] : [])], rows, meaning)];
}

function acceptedDeviations(context: Context): ElementContent[] {
  const { heading, back } = context.words;
  const { accepted } = context.input;
  if (accepted.length === 0) return [];
  const rows = accepted.map(({ code, because, where }) =>
    h('tr', { dir: 'auto' }, [
      h('th', { scope: 'row' }, whereText(where, context)),
      h('td', h('code', code)),
      h('td', because),
    ]),
  );
  return [h('section.accepted', [h('h2', heading.accepted), table([back.where, back.deviation, back.because], rows)])];
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
  return [h('section.revisions', [h('h2', words.heading.revisions), table(heads, [own, empty(), empty()])])];
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
