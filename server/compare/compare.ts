/**
 * What is otherwise in one card than in another, for whoever works with it: by meaning, and not by line. What is only written
 * otherwise (layout, names, units, a list or lanes in another order, steps as rounds or as a procedure) is no change.
 */
import type { Admonition, Card } from '../../shared/card.ts';
import type { Finding } from '../../shared/finding.ts';
import { type Context, contextOf } from '../render/context.ts';
import type { RenderInput } from '../render/input.ts';
import { inPrintedOrder } from '../render/numbering.ts';
import { ended } from '../render/sentences/labels.ts';
import type { Change } from './change.ts';
import { equipmentChanges, sourceChange } from './equipment.ts';
import { headChanges } from './head.ts';
import { type Matched, matchUnits, movedPairs } from './match.ts';
import { type Contexts, stepChanges } from './steps.ts';
import { type Unit, unitsOf } from './units.ts';

/** A card by what it is known by. What its proof and its findings say is made when it is its turn: a folder may be large. */
export interface Comparable {
  readonly card: Pick<Card, 'name' | 'number' | 'title' | 'revision'>;
  readonly input: () => RenderInput;
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

/** What the new card prints of its changes: findings are the writer's. A card without an older one has none. */
export function sinceOf(now: Comparable, old: readonly Comparable[], all: readonly Comparable[]): RenderInput['since'] {
  const before = counterpartOf(now, old, all);
  return (
    before && {
      revision: before.card.revision?.text ?? '–',
      changes: crewChanges(contextsOf(before.input(), now.input())).map(({ text, sort, now: place, reliedOnAt }) => ({
        text,
        ...(place && { now: place }),
        ...(reliedOnAt && { reliedOnAt }),
        inside: sort === 'way',
      })),
    }
  );
}

export function compareCards(old: RenderInput, now: RenderInput): readonly Change[] {
  const contexts = contextsOf(old, now);
  return [...crewChanges(contexts), ...findingChanges(old.findings, now.findings, contexts.now)];
}

function crewChanges(contexts: Contexts): readonly Change[] {
  return [...headChanges(contexts), ...bodyChanges(contexts), ...equipmentChanges(contexts)];
}

/** Both in the language of the new card. A second unit says nothing more, and may be rounded otherwise. */
function contextsOf(old: RenderInput, now: RenderInput): Contexts {
  const plain = (input: RenderInput) => contextOf({ ...input, settings: { ...input.settings, secondUnits: 'none' } });
  const context = plain(now);
  return { old: { ...plain(old), words: context.words }, now: context };
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
  const { change } = context.words;
  const steps = stepsInside(unit, context);
  const told = toldUnit(unit, context, {
    step: change.stepAdded,
    rest: (thing, says) => change.added(thing, steps, says),
  });
  return told ? [{ ...told, now: unit.place }] : [];
}

function goneUnit(unit: Unit, context: Context): Change[] {
  const { change } = context.words;
  const told = toldUnit(unit, context, { step: change.stepGone, rest: change.gone });
  return told ? [{ ...told, was: unit.place }] : [];
}

interface Telling {
  readonly step: (number: number, says: string) => string;
  readonly rest: (thing: string, says: string | undefined) => string;
}

/** Undefined of what holds lanes and ways: it is told by those. */
function toldUnit(unit: Unit, context: Context, { step, rest }: Telling): Pick<Change, 'sort' | 'text'> | undefined {
  const { change } = context.words;
  const { says } = unit;
  const told = (sort: Change['sort'], thing: string, text?: string) => ({ sort, text: rest(thing, text) });
  switch (unit.type) {
    case 'step':
      return { sort: 'step', text: step(numberOf(unit, context), ended(says)) };
    case 'stage':
      return told('stage', change.stage(says));
    case 'admonition':
      return told('admonition', admonitionOf(unit, context), says);
    case 'if':
      return told('way', change.thing.branch, ended(change.if(says)));
    case 'way':
      return told('way', change.thing.way, says);
    case 'else':
      return told('way', change.thing.otherwise);
    case 'repeat':
      return told('way', change.thing.repeat, says === '' ? undefined : ended(says));
    case 'keep':
      return told('way', change.thing.keep, ended(says));
    case 'go':
    case 'stop':
    case 'finish':
      return told('way', change.thing.wayOn, ended(says));
    case 'sign':
      return told('role', change.thing.signature, ended(says));
    case 'figure':
      return told('wording', change.thing.picture, ended(says));
    case 'do':
      return told('step', change.card(says));
    default:
      return undefined;
  }
}

function stepsInside({ type, part, place }: Unit, { numbering, words }: Context): string | undefined {
  if (type === 'stage' || type === 'do') return undefined;
  const body = part && 'body' in part ? numbering.rangeOf(part.body) : numbering.rangeAt(place);
  return body && words.step.steps(body.first, body.last);
}

function movedUnit(from: Unit, to: Unit, contexts: Contexts): Change[] {
  const { words, numbering } = contexts.now;
  const says = words.change;
  const change = (sort: Change['sort'], text: string): Change[] => [{ sort, text, now: to.place, was: from.place }];
  switch (to.type) {
    case 'step': {
      const [number, before] = [numberOf(to, contexts.now), numberOf(from, contexts.old)];
      return change('step', says.stepMoved(number, before, ended(to.says)));
    }
    case 'admonition': {
      const thing = admonitionOf(to, contexts.now);
      return change('admonition', says.moved(thing, numbering.firstAfter(to.place), to.says));
    }
    case 'stage':
      return change('stage', says.elsewhere(says.stage(to.says)));
    default:
      return change('way', says.standsElsewhere(ended(to.says)));
  }
}

function changedUnit(from: Unit, to: Unit, contexts: Contexts): Change[] {
  const [before, after] = [from.part, to.part];
  if (to.type === 'step') return stepChanges(from, to, contexts);
  const { change } = contexts.now.words;
  const told: Pick<Change, 'sort' | 'text'>[] = [];
  const tell = (text: string) => told.push({ sort: sortOf(to), text });
  if (before?.type === 'admonition' && after?.type === 'admonition') {
    if (before.level !== after.level) tell(change.otherLevel(after.level, before.level, to.says));
    else if (from.says !== to.says) tell(saidOtherwise(from, to, contexts.now));
    const named = `${admonitionOf(to, contexts.now)} ${change.quoted(to.says)}`;
    told.push(...sourceChange(named, [before.source], [after.source], contexts.now));
  } else if (from.says !== to.says) tell(saidOtherwise(from, to, contexts.now));
  if (before?.type === 'repeat' && after?.type === 'repeat' && before.times !== after.times)
    tell(change.otherTimes(after.times, before.times, stepsInside(to, contexts.now) ?? ''));
  return told.map((one) => ({ ...one, now: to.place, was: from.place }));
}

function saidOtherwise({ says: was }: Unit, to: Unit, context: Context): string {
  const { change } = context.words;
  const { says } = to;
  switch (to.type) {
    case 'stage':
      return change.renamed(change.stage(was), says);
    case 'admonition':
      return change.was(change.reworded(admonitionOf(to, context), says), was);
    case 'if':
      return change.was(change.asksElse(ended(change.if(says))), ended(change.if(was)));
    case 'way':
      return change.was(change.reworded(change.thing.way, ended(says)), ended(was));
    default:
      return change.was(ended(says), ended(was));
  }
}

function sortOf({ type }: Unit): Change['sort'] {
  if (type === 'stage' || type === 'admonition') return type;
  return type === 'sign' || type === 'figure' ? 'wording' : 'way';
}

function numberOf({ part }: Unit, { numbering }: Context): number {
  return part?.type === 'step' ? numbering.numberOf(part) : 0;
}

function admonitionOf({ part }: Unit, { words: { change } }: Context): string {
  return change.admonition[(part as Admonition).level];
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
          level,
          text: `New ${level}, ${code}${atStep(place, context)}: ${message}`,
          now: place,
        }),
      ),
    ...old
      .filter((finding) => !after.has(key(finding)))
      .map(
        ({ level, code, message, place }): Change => ({
          sort: 'finding',
          level,
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
