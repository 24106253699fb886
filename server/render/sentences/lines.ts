/**
 * A step in sentences: what its actions say to the one who does them. Plain data, from which both the printed step and the
 * work copy are made, so that they cannot say different things.
 */
import type {
  Accept,
  Action,
  Bound,
  Bring,
  Check,
  Condition,
  Flow,
  Gauge,
  Item,
  Part,
  Read,
  Record,
  RecordColumn,
  Run,
  Set as SetAction,
  Sign,
  Step,
  Tighten,
  Wait,
  Watch,
} from '../../../shared/card.ts';
import type { JobField } from '../../../shared/job.ts';
import type { Place } from '../../../shared/text.ts';
import type { Unit } from '../../../shared/units.ts';
import type { Context } from '../context.ts';
import { stateText, wordingOf } from '../language/kinds.ts';
import type { FixedWords } from '../language/words.ts';
import { toolsNeeded } from '../needs.ts';
import { boundText, settingText } from './bounds.ts';
import { askedTexts, conditionText, itemStateText, saysOneState, untilText } from './conditions.ts';
import { dutyNotes } from './duties.ts';
import type { FailureWord } from './flows.ts';
import { capitalised, ended, labelText } from './labels.ts';
import { durationText, spanText } from './times.ts';

export interface Line {
  readonly type: Action['type'] | 'text' | 'question' | 'sign' | 'watch';
  readonly sentence: string;
  /** Sentences of lesser weight that belong to it: places and duties. */
  readonly notes: readonly string[];
  /** What a reading must be; several where that depends on another gauge. */
  readonly limits: readonly string[];
  /** The unit of what is written in its blank; absent where nothing is to be written. */
  readonly blank?: { readonly unit?: Unit; readonly gauge?: Gauge };
  /** What else is written down, each in a blank of its own. */
  readonly fields: readonly LineField[];
  /** The fields as a table: the heads of its columns and rows. */
  readonly table?: { readonly columns: readonly string[]; readonly rows: readonly string[] };
  /** What to do when it is not so, after what is done `first`. Without a flow it is to stop. */
  readonly failure?: { readonly flow?: Flow; readonly word?: FailureWord; readonly first?: string };
  /** The lines that go on while this one does. */
  readonly meanwhile: readonly Line[];
  /** What ends it, after all that goes on meanwhile. */
  readonly afterwards: readonly string[];
  /** For `set` and `ensure`: the changes that it tells of. */
  readonly changes: readonly Change[];
  readonly source: Step | Action | Sign | Watch;
  readonly place: Place;
}

export interface LineField {
  readonly label: string;
  readonly kind: JobField['kind'];
  readonly unit?: Unit;
  readonly bound?: Bound;
  /** Wanted, but nobody is asked why it is left out. */
  readonly optional?: true;
}

type Change = SetAction['changes'][number];

export function linesOf(step: Step, context: Context): readonly Line[] {
  const texts = step.texts.map((text) => lineOf('text', ended(text.text), step, { place: text.place }));
  return [...texts, ...joinedChecks(step.actions, context.words).flatMap((action) => actionLines(action, context))];
}

/** Neighbouring checks that items are in one state, and that lead to the same where they fail, are one sentence. */
function joinedChecks(actions: Step['actions'], words: FixedWords): Step['actions'] {
  const joined: (Action | Sign | Accept)[] = [];
  for (const action of actions) {
    const last = joined.at(-1);
    const both = last?.type === 'check' && action.type === 'check' && bothChecks(last, action, words);
    if (both) joined[joined.length - 1] = both;
    else joined.push(action);
  }
  return joined;
}

function bothChecks(first: Check, second: Check, words: FixedWords): Check | undefined {
  if (!first.condition || !second.condition || !leadToTheSame(first.otherwise, second.otherwise)) return undefined;
  const terms = [first.condition, second.condition].flatMap((one) => (one.type === 'and' ? one.terms : one));
  return saysOneState(terms, words)
    ? { ...first, condition: { type: 'and', terms, place: first.condition.place } }
    : undefined;
}

function leadToTheSame(a: Flow | undefined, b: Flow | undefined): boolean {
  if (a?.type === 'go') return b?.type === 'go' && a.target === b.target;
  if (a?.type === 'stop') return b?.type === 'stop' && a.text === b.text;
  return a?.type === b?.type;
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
    case 'tighten':
      return [tightenLine(action, context)];
    case 'record':
      return [recordLine(action, context)];
    case 'sign':
      return [signLine(action, context)];
  }
}

function lineOf(type: Line['type'], sentence: string, source: Line['source'], more: Partial<Line> = {}): Line {
  return {
    type,
    sentence,
    notes: [],
    limits: [],
    fields: [],
    meanwhile: [],
    afterwards: [],
    changes: [],
    source,
    place: source.place,
    ...more,
  };
}

// ---------------------------------------------------------------- set and ensure

/** Neighbouring changes with the same wording make one sentence: "Close and tag the left, right and centre breakers." */
function setLines(action: SetAction, context: Context): readonly Line[] {
  const groups: Change[][] = [];
  for (const change of action.changes) {
    const last = groups.at(-1);
    if (last?.[0] && haveOneWording(last[0], change, context.words)) last.push(change);
    else groups.push([change]);
  }
  return groups.map((group) => setLine(action, group, context));
}

function haveOneWording(a: Change, b: Change, words: FixedWords): boolean {
  const wording = wordingOf(a.item.kind, a.state, words);
  return wording === undefined
    ? a.item.kind === b.item.kind && a.state === b.state
    : wording === wordingOf(b.item.kind, b.state, words);
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
      ? items.filter(({ at }) => at).map(({ label: own, at }) => ended(`${capitalise(own, context)}: ${at}`))
      : [];
  const duties = new Set(group.flatMap(({ item, state }) => dutyNotes(item, state, context.words)));
  return lineOf('set', ended(order(first.item, first.state, label, context)), action, {
    notes: [...notes, ...duties],
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
  const { words } = context;
  const object = words.grammar.object(label);
  const text =
    wordingOf(item.kind, state, words)?.replaceAll('{}', () => object) ??
    words.grammar.setTo(object, stateText(item.kind, state, label, words));
  return capitalise(text, context);
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

function failureOf(flow: Flow | undefined, word: FailureWord = 'ifNot', first?: string): Pick<Line, 'failure'> {
  return { failure: { ...(flow && { flow }), word, ...(first && { first }) } };
}

function textOf(
  condition: Condition | undefined,
  context: Context,
  placing: 'name' | 'name and place' = 'name',
): string {
  return condition ? conditionText(condition, context, placing) : context.words.grammar.open;
}

// ---------------------------------------------------------------- what takes time

function untilOf(condition: Condition | undefined, context: Context): string {
  return condition ? untilText(condition, context) : context.words.grammar.open;
}

function runLine(action: Run, context: Context): Line {
  const { words } = context;
  const command = order(action.item, action.state, labelText(action.item, 'name and place'), context);
  const { until } = action;
  const left = { label: action.item.label, state: stateText(action.item.kind, action.state, action.item.label, words) };
  const within = until?.within && durationText(until.within, words);
  const end = endOf(action, context);
  const sentence = until
    ? words.step.runUntil(command, left, untilOf(until.condition, context), within)
    : words.step.runFor(command, left, action.length ? spanText(action.length, words) : words.grammar.open);
  return lineOf('run', sentence, action, {
    notes: dutyNotes(action.item, action.state, words),
    meanwhile: action.watches.map((watch) => watchLine(watch, end, context)),
    afterwards: end === undefined ? [] : [words.step.thenDo(end)],
    ...(until && failureOf(until.otherwise, 'ifNotReached')),
  });
}

/** A run ends by going back; the normal state is what a reader knows as "back". */
function endOf({ item, state }: Run, context: Context): string | undefined {
  if (item.normally === undefined || item.normally === state) return undefined;
  return ended(order(item, item.normally, item.label, context));
}

/** `endOfRun`: a watch that fails ends the run, before anybody goes elsewhere. */
function watchLine(watch: Watch, endOfRun: string | undefined, context: Context): Line {
  const { step, grammar } = context.words;
  const gauge = labelText(watch.gauge, 'name and place');
  const texts = askedTexts(watch.asked, context);
  const byRows = texts.length > 1;
  const bound = byRows ? step.insideTheLimit : (texts[0] ?? grammar.open);
  const sentence =
    watch.form === 'reaches'
      ? step.watchReaches(gauge, bound, watch.within && durationText(watch.within, context.words))
      : step.watchStays(gauge, bound);
  const failure = failureOf(watch.otherwise, 'ifNot', endOfRun);
  return lineOf('watch', sentence, watch, { limits: byRows ? texts : [], ...failure });
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
  const failure = failureOf(until.otherwise, within === undefined ? 'ifItNeverIs' : 'ifNot');
  return lineOf('wait', step.waitUntil(untilOf(until.condition, context), within), action, failure);
}

// ---------------------------------------------------------------- what is written down

function tightenLine(action: Tighten, context: Context): Line {
  const { step, grammar } = context.words;
  const { what, torque, pattern } = action;
  const torqueText = torque ? settingText(torque, context) : grammar.open;
  const name = 'text' in what ? what.text : labelText(what, 'name and place');
  const sentence = step.tighten(name, torqueText, torque?.form === 'range', pattern?.text);
  const unit = torque && (torque.exactly ?? torque.low ?? torque.high)?.unit;
  // Where the card lists one that is calibrated, it is said which one was used.
  const isAsked = toolsNeeded(context).some(({ calibrated }) => calibrated);
  return lineOf('tighten', ended(capitalise(sentence, context)), action, {
    fields: [
      { label: step.toolNumber, kind: 'tool', ...(!isAsked && { optional: true }) },
      { label: step.reading, kind: 'number', optional: true, ...(unit && { unit }), ...(torque && { bound: torque }) },
    ],
  });
}

function recordLine(action: Record, context: Context): Line {
  const { step, grammar } = context.words;
  const { columns, rows } = action;
  if (action.part) return partLine(action, action.part, context);
  const texts = columns.map(({ text }) => text.text);
  const [first] = columns;
  if (first && columns.length === 1 && rows.length === 0) {
    const fields = first.bound ? [fieldOf(first, step.value)] : [];
    const blank = first.unit ? { unit: first.unit } : {};
    return lineOf('record', step.record(first.text.text), action, { blank, limits: limitsOf(first, context), fields });
  }
  return lineOf('record', ended(step.recordTable(grammar.and(texts))), action, {
    notes: columns.flatMap((column) => limitsOf(column, context).map((limit) => `${column.text.text}: ${limit}`)),
    fields: (rows.length > 0 ? rows : [undefined]).flatMap((row) =>
      columns.map((column) => fieldOf(column, [row?.text, column.text.text].filter(Boolean).join(' · '))),
    ),
    table: {
      columns: columns.map(({ text, unit }) => (unit ? `${text.text} (${unit.printed})` : text.text)),
      rows: rows.map(({ text }) => text),
    },
  });
}

function partLine(action: Record, { text: { text: name }, number, batch, expires }: Part, context: Context): Line {
  const { step } = context.words;
  const fields: LineField[] = [{ label: step.partNumber, kind: 'text' }];
  if (batch) fields.push({ label: step.batch, kind: 'text' });
  if (expires) fields.push({ label: step.expires, kind: 'date' });
  const named = number ? `${name} (${number})` : name;
  return lineOf('record', ended(step.recordPart(named)), action, { fields });
}

function limitsOf({ bound }: RecordColumn, context: Context): readonly string[] {
  return bound ? [boundText(bound, {}, context)] : [];
}

function fieldOf({ unit, bound }: RecordColumn, label: string): LineField {
  return { label, kind: unit ? 'number' : 'text', ...(unit && { unit }), ...(bound && { bound }) };
}

/** What a signature says of the work; empty where it says nothing more than that it is done. */
export const signedFor = ({ text }: Sign) => (text ? ended(text.text) : '');

export function signLine(sign: Sign, context: Context): Line {
  const role = sign.role?.label;
  const text = signedFor(sign);
  const head = sign.independent ? context.words.step.inspectedBy : context.words.step.sign;
  const sentence = [text, role && `${head}: ${role}`].filter(Boolean).join(' ') || head;
  return lineOf('sign', sentence, sign);
}
