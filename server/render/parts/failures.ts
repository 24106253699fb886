/** Every check of the card in one table: what must be so, and what to do when it is not. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Repeat } from '../../../shared/card.ts';
import type { Context } from '../context.ts';
import { inPrintedOrder, isFor, onlyOf, type Part, partsInside } from '../numbering.ts';
import { flowSentence } from '../sentences/flows.ts';
import { capitalised, ended } from '../sentences/labels.ts';
import { type Line, linesOf } from '../sentences/lines.ts';
import { repeatText } from './blocks.ts';
import { table } from './table.ts';

interface Failing {
  readonly where: string;
  readonly asked: string;
  readonly otherwise: NonNullable<Line['failure']>;
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
  const inside = partsInside(part).flatMap((inner) => failuresIn(inner, context));
  if (part.type === 'repeat' && part.until) return [...inside, inVain(part, context)];
  if (part.type !== 'step') return inside;
  const where = context.words.step.step(context.numbering.numberOf(part));
  return linesOf(part, context)
    .flatMap((line) => [line, ...line.meanwhile])
    .flatMap((line) => (line.failure ? [{ where, asked: askedWords(line, context), otherwise: line.failure }] : []));
}

/** A repeat whose last round has not come to what it is done for. */
function inVain(repeat: Repeat, context: Context): Failing {
  const range = context.numbering.rangeOf(repeat.body);
  const where = range ? context.words.step.steps(range.first, range.last) : '';
  return { where, asked: repeatText(repeat, context), otherwise: { flow: repeat.otherwise } };
}

function askedWords(line: Line, { words }: Context): string {
  const limits = line.limits.join('; ');
  const asked = [line.sentence, limits && ended(line.type === 'read' ? words.step.mustBe(limits) : limits)];
  return asked.filter(Boolean).join(' ');
}

function failureRow({ where, asked, otherwise }: Failing, context: Context): Element {
  return h('tr', [
    h('th', { scope: 'row' }, capitalised(where, context.words.tag)),
    h('td', { dir: 'auto' }, asked),
    h('td', { dir: 'auto' }, flowSentence(otherwise.flow, context, otherwise.first)),
  ]);
}
