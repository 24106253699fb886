/** A card as a row of units, each with what a reader takes from it. Layout, names and lists whose order says nothing are gone. */
import type { Admonition, Condition, If, Repeat, Statement, Step, Together } from '../../shared/card.ts';
import { compareText, type Place } from '../../shared/text.ts';
import type { Context } from '../render/context.ts';
import type { Part } from '../render/numbering.ts';
import { conditionText } from '../render/sentences/conditions.ts';
import { type Line, linesOf, signLine } from '../render/sentences/lines.ts';
import { flowWords } from './flows.ts';

export interface Unit {
  readonly type: Statement['type'] | 'stage' | 'else' | 'lane' | 'way';
  /** What it says or asks, without what may change and leave it the same unit. */
  readonly says: string;
  /** What it is done to, by which it is known again in other words. */
  readonly does: readonly string[];
  readonly part: Part | undefined;
  readonly lines: readonly Line[];
  readonly place: Place;
  readonly parent: Unit | undefined;
}

export function unitsOf(parts: readonly Part[], context: Context, parent?: Unit): Unit[] {
  return parts.flatMap((part) => unitsOfPart(part, context, parent));
}

function unitsOfPart(part: Part, context: Context, parent: Unit | undefined): Unit[] {
  const unit = (more: Partial<Unit>): Unit => ({
    type: part.type,
    says: '',
    does: [],
    lines: [],
    part,
    place: part.place,
    parent,
    ...more,
  });
  const holding = (own: Unit, inside: readonly Part[]) => [own, ...unitsOf(inside, context, own)];
  switch (part.type) {
    case 'stage':
      return holding(
        unit({ says: part.whenStopped ? context.words.change.whenStopped(part.title) : part.title }),
        part.body,
      );
    case 'step':
      return [stepUnit(part, context, parent)];
    case 'admonition':
      return [unit({ says: admonitionWords(part) })];
    case 'if':
      return ifUnits(part, context, unit({ says: askedWords(part, context) }));
    case 'repeat':
      return holding(unit({ says: repeatWords(part, context) }), part.body);
    case 'mend':
      return holding(unit({}), part.body);
    case 'together':
      return laneUnits(part, context, unit({}));
    case 'choose': {
      const own = unit({});
      const ways = [...part.ways].sort((a, b) => compareText(a.text.text, b.text.text));
      return [
        own,
        ...ways.flatMap(({ text, body, place }) =>
          holding(unit({ type: 'way', says: text.text, part: undefined, place, parent: own }), body),
        ),
      ];
    }
    case 'do':
      // A reader sees what a procedure does; only a card is something by itself.
      return part.callee.type === 'procedure'
        ? unitsOf(part.body, context, parent)
        : holding(unit({ says: part.title }), part.body);
    case 'for-each':
      return part.rounds.flatMap((round) => unitsOf(round, context, parent));
    case 'keep':
      return [unit({ says: conditionText(part.condition, context) })];
    case 'sign':
      return [unit({ says: signLine(part, context).sentence })];
    case 'figure':
      return [unit({ says: part.caption })];
    case 'accept':
      return [];
    case 'go':
    case 'stop':
    case 'finish':
      return [unit({ says: flowWords(part, context) })];
  }
}

function stepUnit(step: Step, context: Context, parent: Unit | undefined): Unit {
  const lines = linesOf(step, context);
  return {
    type: 'step',
    says: lines.map(({ sentence }) => sentence).join(' '),
    does: lines.flatMap(subjectOf),
    lines,
    part: step,
    place: step.place,
    parent,
  };
}

/** What a line works on, by the name that a reader knows it by. */
export function subjectOf({ type, source, changes }: Line): string[] {
  const sort = type === 'ensure' ? 'set' : type;
  if (changes.length > 0) return changes.map(({ item }) => `${sort} ${item.label}`);
  if ('gauge' in source) return [`${sort} ${source.gauge.label}`];
  if (source.type === 'run') return [`${sort} ${source.item.label}`];
  if (source.type === 'tighten') return [`${sort} ${'text' in source.what ? source.what.text : source.what.label}`];
  return [];
}

function admonitionWords({ hazard, texts }: Admonition): string {
  return [...(hazard ? [hazard.text] : []), ...texts.map(({ text }) => text)].join(' ');
}

function ifUnits(part: If, context: Context, own: Unit): Unit[] {
  const otherwise: Unit = { ...own, type: 'else', says: '', part: undefined, parent: own };
  return [
    own,
    ...unitsOf(part.body, context, own),
    ...(part.otherwise ? [otherwise, ...unitsOf(part.otherwise, context, otherwise)] : []),
  ];
}

function laneUnits(part: Together, context: Context, own: Unit): Unit[] {
  const lanes = part.lanes
    .map(({ role, body, place }) => ({ role: role?.label ?? '', body, place }))
    .sort((a, b) => compareText(a.role, b.role));
  const inLanes = lanes.flatMap(({ role, body, place }) => {
    const lane: Unit = { ...own, type: 'lane', says: role, part: undefined, place, parent: own };
    return [lane, ...unitsOf(body, context, lane)];
  });
  return [own, ...inLanes];
}

interface Asked {
  readonly condition?: Condition;
  readonly question?: { readonly text: string };
}

export function askedWords({ condition, question }: Asked, context: Context): string {
  return question ? context.words.change.quoted(question.text) : condition ? conditionText(condition, context) : '';
}

function repeatWords({ until }: Repeat, context: Context): string {
  return until ? context.words.change.until(askedWords(until, context)) : '';
}
