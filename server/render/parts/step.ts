/** One numbered step: who, which number, the box to tick, and its lines. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Step } from '../../../shared/card.ts';
import { anchorOf, barOf, type Context, positionOf } from '../context.ts';
import { gaugeScale } from '../pictures/scale.ts';
import { failureSentence } from '../sentences/flows.ts';
import { type Line, linesOf } from '../sentences/lines.ts';
import { spanText } from '../sentences/times.ts';
import { blanks, box, boxesForEachTime, forEachTime, signatureBlanks, tickBox, valueBlank, yesOrNo } from './boxes.ts';
import { findingNotes } from './findings.ts';
import { table } from './table.ts';
import { onlyFor, textNode } from './text.ts';

export function renderStep(step: Step, context: Context): Element {
  const number = context.numbering.numberOf(step);
  const lines = linesOf(step, context);
  const letters = lettersOf(lines);
  return h(
    'div.step',
    {
      id: `step-${number}`,
      ...(context.input.withPositions && { dataStep: number }),
      ...barOf(step.place, context),
      ...positionOf(step.place, context),
      ...anchorOf(step, context),
    },
    [
      h('p.who', { dir: 'auto' }, rolesText(step, context)),
      h('p.number', String(number)),
      letters.size > 0 ? h('div.tick') : tickBox(context),
      h('div.lines', [
        ...onlyFor(step, context),
        ...lines.map((line) => renderLine(line, context, letters.get(line))),
        ...boxesForEachTime(context),
        ...asides(step, context),
        ...findingNotes(step.place, [], context),
      ]),
    ],
  );
}

export function rolesText({ roles }: Step, { words }: Context): string {
  return words.grammar.and(roles.map((role) => role.label));
}

/** Several things to do in one step are a, b, c. A signature is its own mark. */
function lettersOf(lines: readonly Line[]): ReadonlyMap<Line, string> {
  const done = lines.filter(({ type }) => type !== 'text' && type !== 'sign');
  if (done.length < 2) return new Map();
  return new Map(done.map((line, index) => [line, letterAt(index)]));
}

const alphabet = 'abcdefghijklmnopqrstuvwxyz';

/** a to z, then aa, ab, … */
function letterAt(index: number): string {
  const last = alphabet[index % alphabet.length] ?? '';
  return index < alphabet.length ? last : letterAt(Math.floor(index / alphabet.length) - 1) + last;
}

export function renderLine(line: Line, context: Context, letter?: string): Element {
  const mark =
    letter === undefined ? [] : [h('span.letter', [...(context.rounds === 1 ? [box(), ' '] : []), `${letter}. `])];
  return h('div.line', { dir: 'auto', ...positionOf(line.place, context) }, [
    h('p.sentence', [...mark, line.sentence, ...besideSentence(line, context)]),
    ...limitParagraphs(line, context),
    ...blankParagraphs(line, context),
    ...fieldParagraphs(line, context),
    ...line.notes.map((note) => h('p.remark', note)),
    ...meanwhile(line, context),
    ...line.afterwards.map((end) => h('p.sentence', end)),
    ...failureParagraph(line, context),
  ]);
}

function failureParagraph({ failure }: Line, context: Context): ElementContent[] {
  return failure ? [h('p.failure', failureSentence(failure.flow, context, failure.word, failure.first))] : [];
}

function meanwhile({ meanwhile: lines }: Line, context: Context): ElementContent[] {
  if (lines.length === 0) return [];
  return [
    h('div.meanwhile', [h('p', context.words.step.meanwhile), ...lines.map((inner) => renderLine(inner, context))]),
  ];
}

/** A question is answered, and a value written down, on the same line where it is done once. */
function besideSentence(line: Line, context: Context): ElementContent[] {
  if (line.type === 'question') return [textNode(' '), yesOrNo(context)];
  return line.type === 'record' && context.rounds === 1 ? [textNode(' '), valueBlank(line.blank?.unit?.printed)] : [];
}

function limitParagraphs(line: Line, { words }: Context): ElementContent[] {
  const [first, ...others] = line.limits;
  if (first === undefined) return [];
  if (others.length === 0 && (line.type === 'read' || line.type === 'record'))
    return [h('p.limit', `${words.step.mustBe(first)}.`)];
  return [
    h(
      'ul.limits',
      line.limits.map((limit) => h('li', limit)),
    ),
  ];
}

function blankParagraphs(line: Line, context: Context): ElementContent[] {
  if (line.type === 'sign') return [signatureBlanks(context)];
  if (line.blank === undefined || (line.type === 'record' && context.rounds === 1)) return [];
  const label = line.type === 'record' ? context.words.step.value : context.words.step.reading;
  const written = blanks(label, line.blank.unit?.printed, context);
  const scale = scaleOf(line, context);
  return scale ? [h('div.gauged', [written, scale])] : [written];
}

/** A table with a blank in each cell, or blanks with their labels; once for each time that the step is done. */
function fieldParagraphs(line: Line, context: Context): ElementContent[] {
  const { fields, table: cells } = line;
  if (fields.length === 0 || line.blank) return [];
  if (cells) return [fillTable(cells, context)];
  return forEachTime(context, (prefix) =>
    h(
      'p.blanks',
      fields.flatMap(({ label, unit }, index) => [
        h('span.blank', [`${index === 0 ? prefix : ''}${label}: `, valueBlank(unit?.printed)]),
      ]),
    ),
  );
}

function fillTable({ columns, rows }: NonNullable<Line['table']>, context: Context): Element {
  const heads = rows.length > 0 ? rows : [''];
  const filled = forEachTime(context, (prefix) => heads.map((row) => `${prefix}${row}`)).flat();
  const isNamed = filled.some((row) => row !== '');
  return table(
    [...(isNamed ? [context.words.back.where] : []), ...columns],
    filled.map((row) =>
      h('tr', [
        ...(isNamed ? [h('th', { scope: 'row', dir: 'auto' }, row)] : []),
        ...columns.map(() => h('td.fill', '')),
      ]),
    ),
  );
}

/** Its manual time and its references. */
function asides(step: Step, context: Context): ElementContent[] {
  const { words } = context;
  const texts = [
    step.takes && words.step.takes(spanText(step.takes, words)),
    ...step.see.map((reference) => words.step.see(reference.text)),
  ].filter((text) => text !== undefined);
  return texts.length === 0
    ? []
    : [
        h(
          'ul.asides',
          { dir: 'auto' },
          texts.map((text) => h('li', text)),
        ),
      ];
}

function scaleOf({ source }: Line, context: Context): Element | undefined {
  if ((source.type !== 'read' && source.type !== 'bring') || !context.firstReadings.has(source) || !source.asked)
    return undefined;
  return gaugeScale(source.gauge, source.asked, context);
}
