/**
 * A step in sentences: what its actions say to the one who does them. Plain data, from which both the printed step and the
 * work copy are made, so that they cannot say different things.
 */
import type {
  Accept,
  Action,
  Bring,
  Check,
  Condition,
  Flow,
  Gauge,
  Item,
  Read,
  Run,
  Set as SetAction,
  Sign,
  Step,
  Wait,
  Watch,
} from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import type { Unit } from '../../../shared/units.ts';
import type { Context } from '../context.ts';
import { askedTexts, conditionText, itemStateText } from './conditions.ts';
import { dutyNotes } from './duties.ts';
import { capitalised, ended, labelText, stateText } from './labels.ts';
import { durationText, spanText } from './times.ts';

export interface Line {
  readonly type:
    | 'text'
    | 'set'
    | 'ensure'
    | 'check'
    | 'question'
    | 'read'
    | 'bring'
    | 'run'
    | 'wait'
    | 'record'
    | 'sign'
    | 'watch';
  readonly sentence: string;
  /** Sentences of lesser weight that belong to it: places, duties, what to do afterwards. */
  readonly notes: readonly string[];
  /** What a reading must be; several where that depends on another gauge. */
  readonly limits: readonly string[];
  /** The unit of what is written in its blank; absent where nothing is to be written. */
  readonly blank?: { readonly unit?: Unit; readonly gauge?: Gauge };
  /** What to do when it is not so. Without a flow it is to stop. */
  readonly failure?: { readonly flow?: Flow };
  /** The lines that go on while this one does. */
  readonly meanwhile: readonly Line[];
  /** For `set` and `ensure`: the changes that it tells of. */
  readonly changes: readonly Change[];
  readonly source: Step | Action | Sign | Watch;
  readonly place: Place;
}

type Change = SetAction['changes'][number];

export function linesOf(step: Step, context: Context): readonly Line[] {
  const texts = step.texts.map((text) => lineOf('text', ended(text.text), step, { place: text.place }));
  return [...texts, ...step.actions.flatMap((action) => actionLines(action, context))];
}

function actionLines(action: Action | Sign | Accept, context: Context): readonly Line[] {
  switch (action.type) {
    case 'accept':
      return [];
    case 'set':
      return setLines(action, context);
    case 'ensure':
      return action.changes.map((change) => ensureLine(action, change, context));
    case 'check':
      return [checkLine(action, context)];
    case 'read':
      return [readLine(action, context)];
    case 'bring':
      return [bringLine(action, context)];
    case 'run':
      return [runLine(action, context)];
    case 'wait':
      return [waitLine(action, context)];
    case 'record':
      return [
        lineOf('record', context.words.step.record(action.text.text), action, {
          blank: action.unit ? { unit: action.unit } : {},
        }),
      ];
    case 'sign':
      return [signLine(action, context)];
  }
}

function lineOf(type: Line['type'], sentence: string, source: Line['source'], more: Partial<Line> = {}): Line {
  return { type, sentence, notes: [], limits: [], meanwhile: [], changes: [], source, place: source.place, ...more };
}

// ---------------------------------------------------------------- set and ensure

/** Neighbouring changes with the same wording make one sentence: "Close and tag the left, right and centre breakers." */
function setLines(action: SetAction, context: Context): readonly Line[] {
  const groups: Change[][] = [];
  for (const change of action.changes) {
    const last = groups.at(-1);
    if (last?.[0] && haveOneWording(last[0], change)) last.push(change);
    else groups.push([change]);
  }
  return groups.map((group) => setLine(action, group, context));
}

function haveOneWording(a: Change, b: Change): boolean {
  const wording = wordingOf(a.item, a.state);
  return wording === undefined
    ? a.item.kind === b.item.kind && a.state === b.state
    : wording === wordingOf(b.item, b.state);
}

function setLine(action: SetAction, group: readonly Change[], context: Context): Line {
  const [first] = group as readonly [Change];
  const items = group.map(({ item }) => item);
  const places = new Set(items.map(({ at }) => at));
  const together = items.length > 1;
  const list = context.words.grammar.list(items.map((item) => item.label));
  const [shared] = places;
  const label = together
    ? labelText({ label: list, ...(places.size === 1 && shared && { at: shared }) }, 'name and place')
    : labelText(first.item, 'name and place');
  const notes =
    together && places.size > 1
      ? items.filter(({ at }) => at).map(({ label: own, at }) => `${capitalise(own, context)}: ${at}`)
      : [];
  return lineOf('set', ended(order(first.item, first.state, label, context)), action, {
    notes,
    changes: group,
    place: first.place,
  });
}

function ensureLine(action: SetAction, change: Change, context: Context): Line {
  const { item, state, place } = change;
  const { step } = context.words;
  const condition = itemStateText(item, [state], context, 'name and place');
  const otherwise = `${step.ifItIsNot}: ${ended(order(item, state, item.label, context))}`;
  return lineOf('ensure', step.ensure(condition), action, { notes: [otherwise], changes: [change], place });
}

/** The order that brings an item into a state, without its end: `Open the left wash valve`. */
export function order(item: Item, state: number, label: string, context: Context): string {
  const wording = wordingOf(item, state);
  const text =
    wording === undefined
      ? context.words.grammar.setTo(label, stateText(item.kind, state))
      : wording.replaceAll('{}', () => label);
  return capitalise(text, context);
}

function wordingOf(item: Item, state: number): string | undefined {
  return item.kind.states[state]?.wording;
}

function capitalise(text: string, { words }: Context): string {
  return capitalised(text, words.tag);
}

// ---------------------------------------------------------------- what is looked at

function checkLine(action: Check, context: Context): Line {
  const { step } = context.words;
  const failure = failureOf(action.otherwise);
  if (action.question) return lineOf('question', ended(step.checkQuestion(action.question.text)), action, failure);
  return lineOf('check', step.check(textOf(action.condition, context, 'name and place')), action, failure);
}

function readLine(action: Read, context: Context): Line {
  const limits = action.asked ? askedTexts(action.asked, context) : [];
  return lineOf('read', ended(readText(action.gauge, context)), action, {
    limits,
    blank: { unit: action.gauge.unit, gauge: action.gauge },
    ...(action.asked && failureOf(action.otherwise)),
  });
}

function readText(gauge: Gauge, { words: { step } }: Context): string {
  const { difference } = gauge;
  if (difference === undefined) return step.read(labelText(gauge, 'name and place'));
  return step.workOut(gauge.label, difference.left.label, difference.sign, difference.right.label);
}

function bringLine(action: Bring, context: Context): Line {
  const { step } = context.words;
  const texts = askedTexts(action.asked, context);
  const within = action.within && durationText(action.within, context.words);
  const gauge = labelText(action.gauge, 'name and place');
  const byRows = texts.length > 1;
  const sentence = byRows
    ? step.bringByRows(gauge, within)
    : ended(step.bring(gauge, texts[0] ?? context.words.grammar.open, within));
  return lineOf('bring', sentence, action, {
    limits: byRows ? texts : [],
    blank: { unit: action.gauge.unit, gauge: action.gauge },
    ...failureOf(action.otherwise),
  });
}

function failureOf(flow: Flow | undefined): Pick<Line, 'failure'> {
  return { failure: flow ? { flow } : {} };
}

function textOf(
  condition: Condition | undefined,
  context: Context,
  placing: 'name' | 'name and place' = 'name',
): string {
  return condition ? conditionText(condition, context, placing) : context.words.grammar.open;
}

// ---------------------------------------------------------------- what takes time

function runLine(action: Run, context: Context): Line {
  const { words } = context;
  const command = order(action.item, action.state, labelText(action.item, 'name and place'), context);
  const { until } = action;
  const sentence = until
    ? words.step.runUntil(command, textOf(until.condition, context), until.within && durationText(until.within, words))
    : words.step.runFor(command, action.length ? spanText(action.length, words) : words.grammar.open);
  return lineOf('run', sentence, action, {
    notes: [...afterwards(action, context), ...dutyNotes(action.item, action.state, words)],
    meanwhile: action.watches.map((watch) => watchLine(watch, context)),
    ...(until && failureOf(until.otherwise)),
  });
}

/** A run ends by going back; the normal state is what a reader knows as "back". */
function afterwards({ item, state }: Run, context: Context): readonly string[] {
  if (item.normally === undefined || item.normally === state) return [];
  return [`${context.words.step.afterwards}: ${ended(order(item, item.normally, item.label, context))}`];
}

function watchLine(watch: Watch, context: Context): Line {
  const { step, grammar } = context.words;
  const gauge = labelText(watch.gauge, 'name and place');
  const [first = grammar.open, ...others] = askedTexts(watch.asked, context);
  const sentence =
    watch.form === 'reaches'
      ? step.watchReaches(gauge, first, watch.within && durationText(watch.within, context.words))
      : step.watchStays(gauge, first);
  return lineOf('watch', sentence, watch, { limits: others, ...failureOf(watch.otherwise) });
}

function waitLine(action: Wait, context: Context): Line {
  const { step } = context.words;
  const { until } = action;
  if (until === undefined)
    return lineOf(
      'wait',
      step.wait(action.length ? spanText(action.length, context.words) : context.words.grammar.open),
      action,
    );
  const within = until.within && durationText(until.within, context.words);
  return lineOf('wait', step.waitUntil(textOf(until.condition, context), within), action, failureOf(until.otherwise));
}

export function signLine(sign: Sign, context: Context): Line {
  const role = sign.role?.label;
  const text = sign.text && ended(sign.text.text);
  const sentence =
    [text, role && `${context.words.step.sign}: ${role}`].filter(Boolean).join(' ') || context.words.step.sign;
  return lineOf('sign', sentence, sign);
}
