/** What is otherwise in the equipment, as far as the card has to do with it, and which steps rely on that. */

import type { Card, Gauge, Item, Limit, Rule, Step } from '../../shared/card.ts';
import { capital } from '../../shared/text.ts';
import { stepsIn } from '../findings/support/card.ts';
import type { Context } from '../render/context.ts';
import { stateText } from '../render/language/kinds.ts';
import { conditionText, limitTexts } from '../render/sentences/conditions.ts';
import { dutyText } from '../render/sentences/duties.ts';
import { linesOf } from '../render/sentences/lines.ts';
import type { Change } from './change.ts';
import { boundWordsChanged, type Contexts } from './steps.ts';
import { subjectOf } from './units.ts';

export function equipmentChanges(contexts: Contexts): Change[] {
  return [...gaugeChanges(contexts), ...itemChanges(contexts), ...ruleChanges(contexts), ...hazardChanges(contexts)];
}

interface Labelled {
  readonly label: string;
}

/** Those with one label in both cards: a label is what a crew knows. */
function inBoth<Thing extends Labelled>(old: readonly Thing[], now: readonly Thing[]): (readonly [Thing, Thing])[] {
  const before = new Map(old.map((thing) => [thing.label, thing]));
  return now.flatMap((thing) => {
    const was = before.get(thing.label);
    return was ? [[was, thing] as const] : [];
  });
}

function gaugeChanges(contexts: Contexts): Change[] {
  const { old, now } = contexts;
  return inBoth(old.input.card.equipment.gauges, now.input.card.equipment.gauges).flatMap(([was, is]) => {
    const users = reliesOn(is, now);
    if (users === '') return [];
    return is.limits.flatMap((limit) => {
      const before = was.limits.find(({ name }) => name === limit.name);
      const told = before && limitChanged(before, limit, is, contexts);
      const text = `The limit ${limit.name} of ${is.label} is ${told}${users}`;
      return told === undefined ? [] : [{ sort: 'limit' as const, text, now: limit.place, was: before?.place }];
    });
  });
}

function limitChanged(was: Limit, is: Limit, gauge: Gauge, { old, now }: Contexts): string | undefined {
  if (was.bound && is.bound) return boundWordsChanged(was.bound, is.bound, gauge);
  const [before, after] = [limitTexts(was, old).join('; '), limitTexts(is, now).join('; ')];
  return before === after ? undefined : `another: ${after}. It was ${before}.`;
}

function itemChanges({ old, now }: Contexts): Change[] {
  return inBoth(old.input.card.equipment.items, now.input.card.equipment.items).flatMap(([was, is]) => {
    const users = reliesOn(is, now);
    const [before, after] = [itemWords(was, old), itemWords(is, now)];
    if (users === '' || before === after) return [];
    const text = `${capital(is.label)}: ${after || 'no duty'}. It was: ${before || 'no duty'}.${users}`;
    return [{ sort: 'equipment' as const, text, now: is.place, was: was.place }];
  });
}

/** What a card relies on of an item, beside what its steps say of it. */
function itemWords(item: Item, { words }: Context): string {
  const normally =
    item.normally === undefined ? [] : [`normally ${stateText(item.kind, item.normally, item.label, words)}`];
  const isSame = item.duties.map((duty) => dutyText(duty, words));
  return [...isSame, ...(item.duties.length > 0 ? [] : normally)].join('; ');
}

/** The steps whose lines work on it; none where the card has nothing to do with it. */
function reliesOn(thing: Labelled, context: Context): string {
  const { card } = context.input;
  const numbers = stepsOf(card)
    .filter((step) =>
      linesOf(step, context).some((line) => [line, ...line.meanwhile].some((one) => worksOn(subjectOf(one), thing))),
    )
    .map((step) => context.numbering.numberOf(step));
  if (numbers.length === 0) return '';
  return numbers.length === 1 ? ` Step ${numbers[0]} relies on it.` : ` Steps ${numbers.join(', ')} rely on it.`;
}

const worksOn = (subjects: readonly string[], { label }: Labelled) =>
  subjects.some((subject) => subject.endsWith(` ${label}`));

function stepsOf(card: Card): Step[] {
  return [...new Set([...stepsIn(card.body)].map(({ step }) => step))];
}

function ruleChanges({ old, now }: Contexts): Change[] {
  const [before, after] = [old, now].map(rulesOf) as [Map<string, RuleWords>, Map<string, RuleWords>];
  const fresh = [...after.values()].flatMap(({ title, words, rule }): Change[] => {
    const was = before.get(title);
    if (was?.words === words) return [];
    const text = was
      ? `The rule “${title}” is another: ${words}. It was: ${was.words}.`
      : `The rule “${title}” is new.`;
    return [{ sort: 'equipment', text, now: rule.place, ...(was && { was: was.rule.place }) }];
  });
  const gone = [...before.values()].filter(({ title }) => !after.has(title));
  return [
    ...fresh,
    ...gone.map(
      ({ title, rule }): Change => ({ sort: 'equipment', text: `The rule “${title}” is gone.`, was: rule.place }),
    ),
  ];
}

interface RuleWords {
  readonly title: string;
  readonly words: string;
  readonly rule: Rule;
}

function rulesOf(context: Context): Map<string, RuleWords> {
  return new Map(
    context.input.card.equipment.rules.map((rule) => {
      const when = rule.condition ? ` ${conditionText(rule.condition, context)}` : '';
      const words = `${rule.trigger}${when}, ${conditionText(rule.require, context)}`;
      return [rule.title, { title: rule.title, words, rule }];
    }),
  );
}

function hazardChanges({ old, now }: Contexts): Change[] {
  return inBoth(old.input.card.equipment.hazards, now.input.card.equipment.hazards).flatMap(([was, is]) => {
    const [before, after] = [hazardWords(was, old), hazardWords(is, now)];
    if (before === after) return [];
    const text = `The hazard “${is.label}” is another: ${after}. It was: ${before}.`;
    return [{ sort: 'equipment' as const, text, now: is.place, was: was.place }];
  });
}

function hazardWords(
  { level, condition, protect, noise }: Card['equipment']['hazards'][number],
  context: Context,
): string {
  return [
    level,
    `while ${conditionText(condition, context)}`,
    protect && `protected by: ${conditionText(protect, context)}`,
    noise && `${noise.toString()} dBA`,
  ]
    .filter(Boolean)
    .join(', ');
}
