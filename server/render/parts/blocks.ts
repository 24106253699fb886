/** Statements that hold others: branches, repeats, lanes, choices, tables. Each gets the function that renders what is inside it. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Choose, ForEach, If, Mend, Repeat, Together } from '../../../shared/card.ts';
import { anchorOf, type Context, positionOf } from '../context.ts';
import { type Part, partsInside } from '../numbering.ts';
import { quantityText } from '../sentences/bounds.ts';
import { clauseText, untilText } from '../sentences/conditions.ts';
import { flowSentence } from '../sentences/flows.ts';
import { capitalised } from '../sentences/labels.ts';
import { box } from './boxes.ts';
import { findingNotes } from './findings.ts';
import { rolesText } from './step.ts';

type RenderParts = (parts: readonly Part[], context: Context) => ElementContent[];

export function renderIf(part: If, context: Context, renderParts: RenderParts): Element {
  const { block } = context.words;
  return h('div.branch', { ...positionOf(part.place, context) }, [
    way(block.if(askedText(part, context)), part.body, context, renderParts, part),
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
      way(block.otherwiseIf(askedText(next, context)), next.body, context, renderParts, next),
      ...otherwise(next, context, renderParts),
    ];
  }
  return [way(block.otherwise, part.otherwise, context, renderParts)];
}

function way(head: string, body: readonly Part[], context: Context, renderParts: RenderParts, asking?: If): Element {
  return h('div.way', [
    h('div.asking', asking ? anchorOf(asking, context) : {}, h('p.asked', { dir: 'auto' }, [box(), ' ', head])),
    h('div.way-body', renderParts(body, context)),
  ]);
}

function askedText({ condition, question }: Asked, context: Context, said = clauseText): string {
  if (question) return context.words.block.answeredYes(question.text);
  return condition ? said(condition, context, 'name and place') : context.words.grammar.open;
}

type Asked = Pick<If, 'condition' | 'question'>;

export function renderRepeat(part: Repeat, context: Context, renderParts: RenderParts): Element {
  const inner = { ...context, rounds: context.rounds * part.times };
  return h('div.repeat', { ...positionOf(part.place, context) }, [
    h('p.repeat-words', { dir: 'auto' }, repeatText(part, context)),
    ...findingNotes(part.place, part.body, context),
    ...renderParts(part.body, inner),
    ...untilAsked(part, context),
  ]);
}

/** Asked after each round; printed is what to do when the last one has not helped. */
function untilAsked(part: Repeat, context: Context): ElementContent[] {
  if (part.until === undefined) return [];
  const text = `${context.words.block.notSoAfter(part.times)}: ${flowSentence(part.otherwise, context)}`;
  return [h('div.asking', anchorOf(part, context), h('p.failure', text))];
}

export function repeatText(part: Repeat, context: Context): string {
  const { block, step } = context.words;
  const range = context.numbering.rangeOf(part.body);
  const steps = range ? step.steps(range.first, range.last) : block.theSteps;
  const text = part.until
    ? block.repeatUntil(steps, askedText(part.until, context, untilText), part.times)
    : block.repeatTimes(steps, part.times);
  return capitalised(text, context.words.tag);
}

/** Lanes stand side by side, because they are done side by side. */
export function renderTogether(part: Together, context: Context, renderParts: RenderParts): Element {
  return h('div.together', { ...positionOf(part.place, context) }, [
    h('p.together-words', context.words.block.together),
    ...findingNotes(part.place, partsInside(part), context),
    ...sideBySide(part.lanes).map((lanes) =>
      h('div.lanes', [
        h('div.lane-heads', [h('div', lanes.map(laneRole))]),
        h(
          'div.lane-row',
          lanes.map((lane) =>
            h('div.lane', { ...positionOf(lane.place, context) }, [laneRole(lane), ...renderParts(lane.body, context)]),
          ),
        ),
      ]),
    ),
  ]);
}

type Lane = Together['lanes'][number];

/** On paper it stands once more on each page to which the lanes go on. */
const laneRole = ({ role }: Lane) => h('p.lane-role', { dir: 'auto' }, role?.label ?? '');

/** More would leave no lane the width of a sentence. */
const mostSideBySide = 3;

function sideBySide(lanes: readonly Lane[]): readonly (readonly Lane[])[] {
  const rows: Lane[][] = [];
  for (let from = 0; from < lanes.length; from += mostSideBySide) rows.push(lanes.slice(from, from + mostSideBySide));
  return rows;
}

export function renderChoose(part: Choose, context: Context, renderParts: RenderParts): Element {
  return h('div.choose', { ...positionOf(part.place, context), ...anchorOf(part, context) }, [
    h('p.choose-words', context.words.block.choose),
    ...findingNotes(part.place, partsInside(part), context),
    ...part.ways.map((one) => way(one.text.text, one.body, context, renderParts)),
  ]);
}

/** Only whoever is sent here by the step before does this. */
export function renderMend(part: Mend, context: Context, renderParts: RenderParts): Element {
  const head = context.words.block.mend(context.numbering.numberOf(part.asked));
  return h('div.branch', { ...positionOf(part.place, context) }, [
    h('div.way', [
      h('div.asking', h('p.asked', { dir: 'auto' }, [box(), ' ', head])),
      h('div.way-body', renderParts(part.body, context)),
    ]),
    ...findingNotes(part.place, partsInside(part), context),
  ]);
}

export function renderForEach(part: ForEach, context: Context, renderParts: RenderParts): Element {
  const { block } = context.words;
  const heads: readonly ElementContent[][] = part.values
    ? part.values.map((value) => [{ type: 'text', value: quantityText(value, context.words) }])
    : part.items.map((item) => [
        { type: 'text', value: capitalised(item.label, context.words.tag) },
        ...(item.at ? [h('span.place', item.at)] : []),
      ]);
  const rows = heads.map((head, index) =>
    h('tr', [h('th', { scope: 'row', dir: 'auto' }, head), h('td', renderParts(part.rounds[index] ?? [], context))]),
  );
  const roles = new Set(part.rounds.flat().flatMap((inner) => rolesIn(inner, context)));
  return h('div.for-each', { ...positionOf(part.place, context) }, [
    h('p.for-each-words', part.values ? block.forEachValue : block.forEach),
    ...findingNotes(part.place, partsInside(part), context),
    ...(roles.size === 1 ? [h('p.who', { dir: 'auto' }, [...roles])] : []),
    h('table.rows', { class: roles.size === 1 && 'of-one-role' }, [
      h(
        'thead',
        h(
          'tr',
          [part.values ? block.value : block.item, block.whatToDo].map((text) => h('th', { scope: 'col' }, text)),
        ),
      ),
      h('tbody', rows),
    ]),
  ]);
}

/** Who does each step of it, in words. */
function rolesIn(part: Part, context: Context): readonly string[] {
  return part.type === 'step'
    ? [rolesText(part, context)]
    : partsInside(part).flatMap((inner) => rolesIn(inner, context));
}
