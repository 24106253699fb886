/** Statements that hold others: branches, repeats, lanes, choices, tables. Each gets the function that renders what is inside it. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Choose, ForEach, If, Repeat, Together } from '../../../shared/card.ts';
import { type Context, positionOf } from '../context.ts';
import { type Part, partsInside } from '../numbering.ts';
import { conditionText } from '../sentences/conditions.ts';
import { flowSentence } from '../sentences/flows.ts';
import { capitalised } from '../sentences/labels.ts';
import { box } from './boxes.ts';
import { findingNotes } from './findings.ts';

type RenderParts = (parts: readonly Part[], context: Context) => ElementContent[];

export function renderIf(part: If, context: Context, renderParts: RenderParts): Element {
  const { block } = context.words;
  return h('div.branch', { ...positionOf(part.place, context) }, [
    way(block.if(askedText(part, context)), part.body, context, renderParts),
    ...findingNotes(part.place, partsInside(part), context),
    ...otherwise(part, context, renderParts),
  ]);
}

/** `else if` goes on at the same level, so that a list of cases reads as a list. */
function otherwise(part: If, context: Context, renderParts: RenderParts): ElementContent[] {
  const { block, step } = context.words;
  if (part.otherwise === undefined) {
    const range = context.numbering.rangeOf(part.body);
    return range ? [h('p.skip', block.skip(step.steps(range.first, range.last)))] : [];
  }
  const [next] = part.otherwise;
  if (part.chained && next?.type === 'if') {
    return [
      way(block.otherwiseIf(askedText(next, context)), next.body, context, renderParts),
      ...otherwise(next, context, renderParts),
    ];
  }
  return [way(block.otherwise, part.otherwise, context, renderParts)];
}

function way(head: string, body: readonly Part[], context: Context, renderParts: RenderParts): Element {
  return h('div.way', [
    h('p.asked', { dir: 'auto' }, [box(), ' ', head]),
    h('div.way-body', renderParts(body, context)),
  ]);
}

function askedText(asked: Pick<If, 'condition' | 'question'>, context: Context): string {
  if (asked.question) return `“${asked.question.text}”`;
  return asked.condition ? conditionText(asked.condition, context, 'name and place') : context.words.grammar.open;
}

export function renderRepeat(part: Repeat, context: Context, renderParts: RenderParts): Element {
  const inner = { ...context, rounds: context.rounds * part.times };
  return h('div.repeat', { ...positionOf(part.place, context) }, [
    h('p.repeat-words', { dir: 'auto' }, repeatText(part, context)),
    ...findingNotes(part.place, part.body, context),
    ...renderParts(part.body, inner),
    ...(part.until
      ? [h('p.failure', `${context.words.block.notSoAfter(part.times)}: ${flowSentence(part.otherwise, context)}`)]
      : []),
  ]);
}

function repeatText(part: Repeat, context: Context): string {
  const { block, step } = context.words;
  const range = context.numbering.rangeOf(part.body);
  const steps = range ? step.steps(range.first, range.last) : block.theSteps;
  const text = part.until
    ? block.repeatUntil(steps, askedText(part.until, context), part.times)
    : block.repeatTimes(steps, part.times);
  return capitalised(text, context.words.tag);
}

/** Lanes stand side by side, because they are done side by side. */
export function renderTogether(part: Together, context: Context, renderParts: RenderParts): Element {
  return h('div.together', { ...positionOf(part.place, context) }, [
    h('p.together-words', context.words.block.together),
    ...findingNotes(part.place, partsInside(part), context),
    h(
      'div.lanes',
      part.lanes.map((lane) =>
        h('div.lane', { ...positionOf(lane.place, context) }, [
          h('p.lane-role', { dir: 'auto' }, lane.role?.label ?? ''),
          ...renderParts(lane.body, context),
        ]),
      ),
    ),
  ]);
}

export function renderChoose(part: Choose, context: Context, renderParts: RenderParts): Element {
  return h('div.choose', { ...positionOf(part.place, context) }, [
    h('p.choose-words', context.words.block.choose),
    ...findingNotes(part.place, partsInside(part), context),
    ...part.ways.map((one) => way(one.text.text, one.body, context, renderParts)),
  ]);
}

export function renderForEach(part: ForEach, context: Context, renderParts: RenderParts): Element {
  const { block } = context.words;
  const rows = part.items.map((item, index) =>
    h('tr', [
      h('th', { scope: 'row', dir: 'auto' }, [
        capitalised(item.label, context.words.tag),
        ...(item.at ? [h('span.place', item.at)] : []),
      ]),
      h('td', renderParts(part.rounds[index] ?? [], context)),
    ]),
  );
  return h('div.for-each', { ...positionOf(part.place, context) }, [
    h('p.for-each-words', block.forEach(part.items.length)),
    ...findingNotes(part.place, partsInside(part), context),
    h('table.rows', [
      h(
        'thead',
        h(
          'tr',
          [block.item, block.whatToDo].map((text) => h('th', { scope: 'col' }, text)),
        ),
      ),
      h('tbody', rows),
    ]),
  ]);
}
