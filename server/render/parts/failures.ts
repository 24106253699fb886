/** Every check of the card in one table: what must be so, and what to do when it is not. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Context } from '../context.ts';
import { inPrintedOrder, isFor, onlyOf, type Part, partsInside } from '../numbering.ts';
import { flowSentence } from '../sentences/flows.ts';
import { capitalised, ended } from '../sentences/labels.ts';
import { type Line, linesOf } from '../sentences/lines.ts';
import { table } from './table.ts';

interface Failing {
  readonly step: number;
  readonly line: Line;
}

export function renderFailures(context: Context): ElementContent[] {
  const { heading, back } = context.words;
  const rows = inPrintedOrder(context.input.card).flatMap((part) => failuresIn(part, context));
  if (rows.length === 0) return [];
  const body = rows.map((row) => failureRow(row, context));
  return [
    h('section.failures', [h('h2', heading.whenACheckFails), table([back.where, back.check, back.ifItFails], body)]),
  ];
}

function failuresIn(part: Part, context: Context): readonly Failing[] {
  if (!isFor(onlyOf(part), context.input.configuration)) return [];
  if (part.type !== 'step') return partsInside(part).flatMap((inner) => failuresIn(inner, context));
  const step = context.numbering.numberOf(part);
  return linesOf(part, context)
    .flatMap((line) => [line, ...line.meanwhile])
    .filter((line) => line.failure)
    .map((line) => ({ step, line }));
}

function failureRow({ step, line }: Failing, context: Context): Element {
  const { words } = context;
  const limits = line.limits.join('; ');
  const asked = [line.sentence, limits && ended(line.type === 'read' ? words.step.mustBe(limits) : limits)];
  return h('tr', [
    h('th', { scope: 'row' }, capitalised(words.step.step(step), words.tag)),
    h('td', { dir: 'auto' }, asked.filter(Boolean).join(' ')),
    h('td', { dir: 'auto' }, flowSentence(line.failure?.flow, context)),
  ]);
}
