/** Stages and statements, in the order in which they are done. */
import type { Element, ElementContent } from 'hast';
import { h } from 'hastscript';
import type { Admonition, Keep, Stage, Statement } from '../../../shared/card.ts';
import { anchorOf, type Context, positionOf } from '../context.ts';
import { isFor, onlyOf, type Part, partsInside } from '../numbering.ts';
import { conditionText } from '../sentences/conditions.ts';
import { failureSentence, flowSentence } from '../sentences/flows.ts';
import { signLine } from '../sentences/lines.ts';
import { admonitionTexts, renderAdmonition } from './admonition.ts';
import { alteredList } from './back.ts';
import { renderChoose, renderForEach, renderIf, renderMend, renderRepeat, renderTogether } from './blocks.ts';
import { boxesForEachTime, tickBox } from './boxes.ts';
import { renderFigure } from './figure.ts';
import { findingNotes } from './findings.ts';
import { heading } from './heading.ts';
import { renderLine, renderStep } from './step.ts';
import { onlyFor } from './text.ts';

/** The admonitions that stand before the first stage are for the whole card, where it has stages. */
function wholeCardAdmonitions({ input: { card, configuration } }: Context): readonly Admonition[] {
  const first = card.body.findIndex((part) => part.type !== 'admonition');
  if (!card.body.some((part) => part.type === 'stage')) return [];
  return card.body
    .slice(0, first)
    .filter((part) => part.type === 'admonition' && isFor(part.only, configuration)) as Admonition[];
}

export function renderWholeCardAdmonitions(context: Context): ElementContent[] {
  const admonitions = wholeCardAdmonitions(context);
  if (admonitions.length === 0) return [];
  const shown = admonitions.map((admonition) => renderAdmonition(admonition, context));
  return [h('section.whole-card', [heading(2, context.words.heading.forTheWholeCard), ...shown])];
}

export function renderBodyParts(context: Context): ElementContent[] {
  const elsewhere: readonly Part[] = [...wholeCardAdmonitions(context), ...context.stopStages];
  const parts = context.input.card.body.filter((part) => !elsewhere.includes(part));
  const [first] = parts;
  // What has no title of its own is not to be read under the title of the list before it.
  const isTitled = first === undefined || first.type === 'stage' || first.type === 'do';
  return [...(isTitled ? [] : [heading(2, context.words.heading.steps)]), ...renderParts(parts, context)];
}

/** The last page: what whoever stops has to do. */
export function renderStopPage(context: Context): ElementContent[] {
  const { stopStages, words } = context;
  if (stopStages.length === 0) return [];
  const inner = { ...context, level: 3 };
  return [
    h('section.if-you-stop', [
      heading(2, words.heading.ifYouStop),
      ...stopStages.map((stage) => renderStage(stage, inner)),
      h('div.left', alteredList(context)),
    ]),
  ];
}

/** An admonition and what it stands before are one unit, which no page break parts. */
export function renderParts(parts: readonly Part[], context: Context): ElementContent[] {
  const own = parts.filter((part) => isFor(onlyOf(part), context.input.configuration));
  const kept = own.findIndex((part) => part.type === 'keep');
  if (kept !== -1) {
    const keep = own[kept] as Keep;
    return [...renderUnits(own.slice(0, kept), context), renderKeep(keep, own.slice(kept + 1), context)];
  }
  return renderUnits(own, context);
}

function renderUnits(parts: readonly Part[], context: Context): ElementContent[] {
  const units: ElementContent[] = [];
  let before: Element[] = [];
  for (const [index, part] of parts.entries()) {
    const element = saysTheSame(parts[index - 1], part) ? undefined : renderPart(part, context);
    if (element === undefined) continue;
    if (part.type === 'admonition') before.push(element);
    else {
      units.push(
        before.length === 0 ? element : h(part.type === 'step' ? 'div.unit' : 'div.warned', [...before, element]),
      );
      before = [];
    }
  }
  return [...units, ...before];
}

/** Two hazards may share their words: said once after another, they are read once. */
function saysTheSame(before: Part | undefined, part: Part): boolean {
  if (before?.type !== 'admonition' || part.type !== 'admonition' || before.only || part.only) return false;
  return before.level === part.level && admonitionTexts(before).join('\n') === admonitionTexts(part).join('\n');
}

function renderPart(part: Part, context: Context): Element | undefined {
  switch (part.type) {
    case 'stage':
      return renderStage(part, context);
    case 'step':
      return renderStep(part, context);
    case 'admonition':
      return renderAdmonition(part, context);
    case 'if':
      return renderIf(part, context, renderParts);
    case 'repeat':
      return renderRepeat(part, context, renderParts);
    case 'together':
      return renderTogether(part, context, renderParts);
    case 'for-each':
      return renderForEach(part, context, renderParts);
    case 'choose':
      return renderChoose(part, context, renderParts);
    case 'mend':
      return renderMend(part, context, renderParts);
    case 'do':
      return renderDo(part, context);
    case 'keep':
      return renderKeep(part, [], context);
    case 'sign':
      return h('div.standing', { ...positionOf(part.place, context), ...anchorOf(part, context) }, [
        tickBox(context),
        h('div.lines', [renderLine(signLine(part, context), context), ...boxesForEachTime(context)]),
      ]);
    case 'go':
    case 'stop':
    case 'finish':
      return h('p.flow', { dir: 'auto', ...positionOf(part.place, context) }, flowSentence(part, context));
    case 'figure':
      return renderFigure(part, context);
    case 'accept':
      return undefined;
  }
}

function renderStage(stage: Stage, context: Context): Element {
  const inner = { ...context, level: context.level + 1 };
  return h('section.stage', { ...positionOf(stage.place, context), ...anchorOf(stage, context) }, [
    heading(context.level, stage.title),
    ...onlyFor(stage, context),
    ...findingNotes(stage.place, stage.body, context),
    ...renderParts(stage.body, inner),
  ]);
}

function renderDo(part: Extract<Statement, { type: 'do' }>, context: Context): Element {
  const number = part.callee.type === 'card' ? part.callee.number : undefined;
  const inner = { ...context, level: context.level + 1 };
  return h('section.do', { ...positionOf(part.place, context) }, [
    heading(context.level, context.words.block.do(part.title, number)),
    ...findingNotes(part.place, part.body, context),
    ...renderParts(part.body, inner),
  ]);
}

/** A frame round everything for which the condition is kept. */
function renderKeep(keep: Keep, rest: readonly Part[], context: Context): Element {
  return h('div.keep', { ...positionOf(keep.place, context) }, [
    h('div.keep-words', { dir: 'auto' }, [
      h('p', context.words.block.keep(conditionText(keep.condition, context, 'name and place'))),
      h('p.failure', failureSentence(keep.otherwise, context)),
      ...findingNotes(keep.place, partsInside(keep), context),
    ]),
    ...renderParts(rest, context),
  ]);
}
