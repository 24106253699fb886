/** What is otherwise in the equipment, as far as the card has to do with it, and which steps rely on that. */

import type { Card, Hazard, Item, Limit, Rule, Step } from '../../shared/card.ts';
import { conditionsAskedBy, termsIn } from '../../shared/conditions.ts';
import { stepsIn } from '../findings/support/card.ts';
import type { Context } from '../render/context.ts';
import { stateText } from '../render/language/kinds.ts';
import { conditionText, limitTexts } from '../render/sentences/conditions.ts';
import { dutyText } from '../render/sentences/duties.ts';
import { capitalised, spoken } from '../render/sentences/labels.ts';
import { linesOf } from '../render/sentences/lines.ts';
import type { Change } from './change.ts';
import { type Contexts, limitChange, limitOf } from './steps.ts';
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
    if (stepsOn(is, now).length === 0) return [];
    return is.limits.flatMap((limit) => {
      const before = was.limits.find(({ name }) => name === limit.name);
      return before ? limitChanges(before, limit, contexts) : [];
    });
  });
}

function limitChanges(was: Limit, is: Limit, { old, now }: Contexts): Change[] {
  const { words } = now;
  const users = stepsOf(now.input.card).filter((step) => asksFor(is, step));
  const subject = capitalised(limitOf(is.gauge, spoken(is.name), words), words.tag);
  const told = limitChange(subject, [was, limitTexts(was, old)], [is, limitTexts(is, now)], is.gauge, now);
  const change = { now: is.place, was: was.place };
  return [
    ...(told ? [{ ...change, ...told, sort: 'limit' as const, ...reliedOnBy(users, told.text, now) }] : []),
    ...sourceChange(subject, [was.source], [is.source], now).map((one) => ({ ...one, ...change })),
  ];
}

function itemChanges({ old, now }: Contexts): Change[] {
  return inBoth(old.input.card.equipment.items, now.input.card.equipment.items).flatMap(([was, is]) => {
    const users = stepsOn(is, now);
    const [before, after] = [itemWords(was, old), itemWords(is, now)];
    if (users.length === 0 || before === after) return [];
    const { change, grammar, tag } = now.words;
    const label = capitalised(grammar.list([is.label]), tag);
    const text = change.item(label, after || undefined, before || undefined);
    return [{ sort: 'equipment' as const, now: is.place, was: was.place, ...reliedOnBy(users, text, now) }];
  });
}

/** What a card relies on of an item, beside what its steps say of it. */
function itemWords(item: Item, { words }: Context): string {
  const normally =
    item.normally === undefined ? [] : [words.change.normally(stateText(item.kind, item.normally, item.label, words))];
  const isSame = item.duties.map((duty) => dutyText(duty, words));
  return [...isSame, ...(item.duties.length > 0 ? [] : normally)].join('; ');
}

/** The steps whose lines work on it. */
function stepsOn(thing: Labelled, context: Context): Step[] {
  return stepsOf(context.input.card).filter((step) =>
    linesOf(step, context).some((line) => [line, ...line.meanwhile].some((one) => worksOn(subjectOf(one), thing))),
  );
}

function asksFor(limit: Limit, { actions }: Step): boolean {
  return actions
    .flatMap((action) => (action.type === 'sign' || action.type === 'accept' ? [] : conditionsAskedBy(action)))
    .flatMap((condition) => [...termsIn(condition)])
    .some((term) => term.type === 'limit' && term.limit === limit);
}

function reliedOnBy(
  steps: readonly Step[],
  text: string,
  { words, numbering }: Context,
): Pick<Change, 'text' | 'reliedOnAt'> {
  if (steps.length === 0) return { text };
  const numbers = steps.map((step) => `${numbering.numberOf(step)}`);
  const relies = words.change.relies(words.grammar.and(numbers), numbers.length);
  return { text: `${text} ${relies}`, reliedOnAt: steps.map(({ place }) => place) };
}

const worksOn = (subjects: readonly string[], { label }: Labelled) =>
  subjects.some((subject) => subject.endsWith(` ${label}`));

function stepsOf(card: Card): Step[] {
  return [...new Set([...stepsIn(card.body)].map(({ step }) => step))];
}

function ruleChanges({ old, now }: Contexts): Change[] {
  const before = new Map(old.input.card.equipment.rules.map((rule) => [rule.title, rule]));
  const rules = now.input.card.equipment.rules;
  const { change } = now.words;
  const fresh = rules.flatMap((rule): Change[] => {
    const was = before.get(rule.title);
    const subject = capitalised(change.rule(rule.title), now.words.tag);
    if (!was)
      return [
        { sort: 'equipment', text: change.added(change.rule(rule.title), undefined, undefined), now: rule.place },
      ];
    const told = [
      ...otherwise(change.rule(rule.title), ruleWords(was, old), ruleWords(rule, now), now),
      ...sourceChange(subject, was.sources, rule.sources, now),
    ];
    return told.map((one) => ({ ...one, now: rule.place, was: was.place }));
  });
  const gone = [...before.values()].filter(({ title }) => !rules.some((rule) => rule.title === title));
  return [
    ...fresh,
    ...gone.map(
      ({ title, place }): Change => ({
        sort: 'equipment',
        text: change.gone(change.rule(title), undefined),
        was: place,
      }),
    ),
  ];
}

function ruleWords({ trigger, condition, require }: Rule, context: Context): string {
  const when = context.words.change.trigger[trigger](condition ? conditionText(condition, context) : '');
  return `${when}, ${conditionText(require, context)}`;
}

function hazardChanges({ old, now }: Contexts): Change[] {
  const { change, tag } = now.words;
  return inBoth(old.input.card.equipment.hazards, now.input.card.equipment.hazards).flatMap(([was, is]) => {
    const told = [
      ...otherwise(change.hazard(is.label), hazardWords(was, old), hazardWords(is, now), now),
      ...sourceChange(capitalised(change.hazard(is.label), tag), [was.source], [is.source], now),
    ];
    return told.map((one) => ({ ...one, now: is.place, was: was.place }));
  });
}

function hazardWords({ level, condition, protect, noise }: Hazard, context: Context): string {
  const { change, signal } = context.words;
  return [
    signal[level],
    change.trigger.while(conditionText(condition, context)),
    protect && change.protectedBy(conditionText(protect, context)),
    noise && `${noise.toString()} dBA`,
  ]
    .filter(Boolean)
    .join(', ');
}

type Told = Pick<Change, 'sort' | 'text'>;

function otherwise(thing: string, was: string, is: string, { words }: Context): Told[] {
  return was === is ? [] : [{ sort: 'equipment', text: words.change.another(thing, is, was) }];
}

/** The sentences of the approved data that something comes from. */
export function sourceChange(
  subject: string,
  old: readonly (string | undefined)[],
  now: readonly (string | undefined)[],
  { words: { change } }: Context,
): Told[] {
  const words = (texts: typeof old) =>
    texts.flatMap((text) => (text === undefined ? [] : change.quoted(text))).join(', ') || undefined;
  const [was, is] = [words(old), words(now)];
  return was === is ? [] : [{ sort: 'wording', text: change.source(subject, is, was) }];
}
