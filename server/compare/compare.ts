/**
 * What is otherwise in one card than in another, for whoever works with it: by meaning, and not by line. What is only written
 * otherwise (layout, names, units, a list or lanes in another order, steps as rounds or as a procedure) is no change.
 */
import type { Admonition, Card } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import { type Context, contextOf } from '../render/context.ts';
import type { RenderInput } from '../render/input.ts';
import { inPrintedOrder } from '../render/numbering.ts';
import type { Change } from './change.ts';
import { equipmentChanges } from './equipment.ts';
import { headChanges } from './head.ts';
import { type Matched, matchUnits, movedPairs } from './match.ts';
import { type Contexts, stepChanges } from './steps.ts';
import { type Unit, unitsOf } from './units.ts';

/** A card with what its proof and its findings say. */
export interface Comparable {
  readonly card: Card;
  readonly input: RenderInput;
}

/** By number; where that is another, by name. One card each are two revisions of one, whatever they are called. */
export function counterpartOf(
  { card }: Comparable,
  old: readonly Comparable[],
  now: readonly Comparable[],
): Comparable | undefined {
  return (
    old.find((one) => one.card.number !== undefined && one.card.number.text === card.number?.text) ??
    old.find((one) => one.card.name === card.name) ??
    (old.length === 1 && now.length === 1 ? old[0] : undefined)
  );
}

/** What the new card prints of its changes. A card without an older one has none. */
export function sinceOf(now: Comparable, old: readonly Comparable[], all: readonly Comparable[]): RenderInput['since'] {
  const before = counterpartOf(now, old, all);
  return (
    before && {
      revision: before.card.revision?.text ?? '–',
      changes: compareCards(before, now).map(({ text, sort, now: place }) => ({
        text,
        ...(place && { now: place }),
        inside: sort === 'way',
      })),
    }
  );
}

export function compareCards(old: Comparable, now: Comparable): readonly Change[] {
  const contexts = { old: plainContext(old.input), now: plainContext(now.input) };
  return [
    ...headChanges(contexts),
    ...bodyChanges(contexts),
    ...equipmentChanges(contexts),
    ...findingChanges(old.input.findings, now.input.findings, contexts.now),
  ];
}

/** A second unit says nothing more, and may be rounded otherwise. */
function plainContext(input: RenderInput): Context {
  return contextOf({ ...input, settings: { ...input.settings, secondUnits: 'none' } });
}

function bodyChanges(contexts: Contexts): Change[] {
  const old = unitsOf(inPrintedOrder(contexts.old.input.card), contexts.old);
  const now = unitsOf(inPrintedOrder(contexts.now.input.card), contexts.now);
  const matched = matchUnits(old, now);
  const toOld = new Map(matched.pairs.map(([from, to]) => [to, from]));
  const moved = new Set(movedUnits(matched, old, now));
  const changes = now.flatMap((unit): Change[] => {
    const from = toOld.get(unit);
    if (!from) return addedUnit(unit, contexts.now);
    return [...(moved.has(unit) ? movedUnit(from, unit, contexts) : []), ...changedUnit(from, unit, contexts)];
  });
  return [...changes, ...matched.gone.flatMap((unit) => goneUnit(unit, contexts.old))];
}

/** Those in another order, and those in another block; not what only goes along with the block that it is in. */
function movedUnits({ pairs }: Matched, old: readonly Unit[], now: readonly Unit[]): Unit[] {
  const toNow = new Map(pairs);
  const known = new Set(pairs.map(([, unit]) => unit));
  const elsewhere = pairs.filter(([from, to]) => {
    const block = from.parent && toNow.get(from.parent);
    const isKnown = (from.parent === undefined || block) && (to.parent === undefined || known.has(to.parent));
    return isKnown && block !== to.parent;
  });
  const moved = new Set([...movedPairs(pairs, old, now), ...elsewhere].map(([, unit]) => unit));
  return [...moved].filter((unit) => !unit.parent || !moved.has(unit.parent));
}

function addedUnit(unit: Unit, context: Context): Change[] {
  const { now, ...told } = toldUnit(unit, context, { step: 'is new', rest: 'is new' });
  return told.text === undefined ? [] : [{ ...told, text: told.text, now }];
}

function goneUnit(unit: Unit, context: Context): Change[] {
  const { now, ...told } = toldUnit(unit, context, { step: 'of the old card is gone', rest: 'is gone' });
  return told.text === undefined ? [] : [{ ...told, text: told.text, was: now }];
}

function toldUnit(unit: Unit, context: Context, { step, rest }: { readonly step: string; readonly rest: string }) {
  const told = (sort: Change['sort'], text: string) => ({ sort, text, now: unit.place });
  const { part, says } = unit;
  const steps = (inside: string) => (rest === 'is new' ? `${rest}${inside}` : rest);
  switch (unit.type) {
    case 'step':
      return told('step', `Step ${numberOf(unit, context)} ${step}: ${ended(says)}`);
    case 'stage':
      return told('stage', `The stage “${says}” ${rest}.`);
    case 'admonition': {
      const { level } = part as Admonition;
      return told('admonition', `${withArticle(level)} ${rest}: ${says}`);
    }
    case 'if':
      return told('way', `A branch ${steps(stepsInside(unit, context))}: if ${says}`);
    case 'way':
      return told('way', `A way to choose ${steps(stepsInside(unit, context))}: ${says}`);
    case 'else':
      return told('way', `An “otherwise” ${steps(stepsInside(unit, context))}.`);
    case 'repeat':
      return told('way', `A repeat ${steps(stepsInside(unit, context))}${says && `: ${says}`}.`);
    case 'keep':
      return told('way', `“Keep” ${rest}: ${ended(says)}`);
    case 'go':
    case 'stop':
    case 'finish':
      return told('way', `A way on ${rest}: ${ended(says)}`);
    case 'sign':
      return told('role', `A signature ${rest}: ${ended(says)}`);
    case 'figure':
      return told('wording', `A picture ${rest}: ${ended(says)}`);
    case 'do':
      return told('step', `The card “${says}” ${rest} among the steps.`);
    default:
      // What holds lanes and ways is told by those.
      return { sort: 'step' as const, text: undefined, now: unit.place };
  }
}

function stepsInside(unit: Unit, { numbering }: Context): string {
  const part = unit.part;
  const body = part && 'body' in part ? numbering.rangeOf(part.body) : numbering.rangeAt(unit.place);
  if (!body) return '';
  return body.first === body.last ? `, for step ${body.first}` : `, for steps ${body.first} to ${body.last}`;
}

function movedUnit(from: Unit, to: Unit, contexts: Contexts): Change[] {
  const change = (sort: Change['sort'], text: string): Change[] => [{ sort, text, now: to.place, was: from.place }];
  if (to.type === 'step')
    return change(
      'step',
      `Step ${numberOf(to, contexts.now)} was step ${numberOf(from, contexts.old)}: ${ended(to.says)}`,
    );
  if (to.type === 'admonition') {
    const before = contexts.now.numbering.firstAfter(to.place);
    const where = before === undefined ? 'the end' : `before step ${before}`;
    return change('admonition', `${withArticle((to.part as Admonition).level)} has moved, to ${where}: ${to.says}`);
  }
  if (to.type === 'stage') return change('stage', `The stage “${to.says}” stands elsewhere.`);
  return change('way', `Another place has: ${ended(to.says)}`);
}

function changedUnit(from: Unit, to: Unit, contexts: Contexts): Change[] {
  const change = (sort: Change['sort'], text: string): Change => ({ sort, text, now: to.place, was: from.place });
  const [before, after] = [from.part, to.part];
  if (to.type === 'step') return stepChanges(from, to, contexts);
  const words = from.says === to.says ? [] : [saidOtherwise(from, to)];
  if (before?.type === 'admonition' && after?.type === 'admonition' && before.level !== after.level)
    return [
      change('admonition', `${withArticle(before.level)} is now ${withArticle(after.level).toLowerCase()}: ${to.says}`),
    ];
  if (before?.type === 'repeat' && after?.type === 'repeat' && before.times !== after.times)
    words.push(`What is done ${after.times} times${stepsInside(to, contexts.now)} was done ${before.times} times.`);
  return words.map((text) => change(sortOf(to), text));
}

function saidOtherwise(from: Unit, to: Unit): string {
  const { says } = to;
  switch (to.type) {
    case 'stage':
      return `The stage “${from.says}” is now “${says}”.`;
    case 'admonition':
      return `${withArticle((to.part as Admonition).level)} is reworded: ${says} It was: ${from.says}`;
    case 'if':
      return `A branch asks something else: if ${says}. It was: if ${from.says}.`;
    case 'way':
      return `A way to choose is now “${says}”. It was “${from.says}”.`;
    default:
      return `${ended(says)} It was: ${ended(from.says)}`;
  }
}

function sortOf({ type }: Unit): Change['sort'] {
  if (type === 'stage' || type === 'admonition') return type;
  return type === 'sign' || type === 'figure' ? 'wording' : 'way';
}

function numberOf({ part }: Unit, { numbering }: Context): number {
  return part?.type === 'step' ? numbering.numberOf(part) : 0;
}

function findingChanges(old: readonly Finding[], now: readonly Finding[], context: Context): Change[] {
  const key = ({ code, message }: Finding) => `${code} ${message}`;
  const [before, after] = [old, now].map((findings) => new Set(findings.map(key))) as [Set<string>, Set<string>];
  return [
    ...now
      .filter((finding) => !before.has(key(finding)))
      .map(
        ({ level, code, message, place }): Change => ({
          sort: 'finding',
          text: `New ${level}, ${code}${atStep(place, context)}: ${message}`,
          now: place,
        }),
      ),
    ...old
      .filter((finding) => !after.has(key(finding)))
      .map(
        ({ code, message, place }): Change => ({
          sort: 'finding',
          text: `No longer found: ${code}: ${message}`,
          was: place,
        }),
      ),
  ];
}

function atStep(place: Finding['place'], { numbering }: Context): string {
  const [step] = numbering.stepsAt(place);
  return step === undefined ? '' : ` at step ${step}`;
}

function withArticle(level: Admonition['level']): string {
  return `A ${level}`;
}

const ended = (text: string) => (/[.!?:]”?$/.test(text) ? text : `${text}.`);
