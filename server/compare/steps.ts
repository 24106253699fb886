/** What is otherwise in a step that is in both cards. */
import type { Bound, Condition, Gauge, Seconds, Step } from '../../shared/card.ts';
import { equalIntervals, isWithin } from '../../shared/interval.ts';
import { boundInUnit } from '../../shared/quantity.ts';
import type { Context } from '../render/context.ts';
import type { LimitChange } from '../render/language/change-words.ts';
import type { FixedWords } from '../render/language/words.ts';
import { boundText } from '../render/sentences/bounds.ts';
import { askedTexts, conditionText } from '../render/sentences/conditions.ts';
import { ended } from '../render/sentences/labels.ts';
import type { Line } from '../render/sentences/lines.ts';
import { whichText } from '../render/sentences/machines.ts';
import { durationText, spanText } from '../render/sentences/times.ts';
import type { Change, ChangeSort } from './change.ts';
import { flowWords } from './flows.ts';
import { subjectOf, type Unit } from './units.ts';

export interface Contexts {
  readonly old: Context;
  readonly now: Context;
}

export function stepChanges(old: Unit, now: Unit, contexts: Contexts): Change[] {
  const [before, after] = [old.part as Step, now.part as Step];
  const { words, numbering } = contexts.now;
  const says = words.change;
  const step = says.step(numbering.numberOf(after));
  const change: Saying['change'] = (sort, text, more) => ({ sort, text, now: now.place, was: old.place, ...more });
  const fields: readonly (readonly [ChangeSort, typeof says.see, (of: Step) => string])[] = [
    ['role', says.roles, ({ roles }) => words.grammar.and(roles.map(({ label }) => label))],
    ['time', says.takes, ({ takes }) => (takes ? spanText(takes, words) : '')],
    ['way', says.only, ({ only }) => (only ? whichText(only, words) : '')],
    ['wording', says.see, ({ see }) => see.map(({ text }) => says.quoted(text)).join(', ')],
    ['wording', says.source, ({ sources = [] }) => sources.map(says.quoted).join(', ')],
  ];
  const changed = fields.flatMap(([sort, say, of]) => {
    const [was, is] = [of(before), of(after)];
    return was === is ? [] : [change(sort, say(step, is || undefined, was || undefined))];
  });
  return [...changed, ...lineChanges(old.lines, now.lines, { step, change, contexts })];
}

interface Saying {
  readonly step: string;
  readonly change: (sort: ChangeSort, text: string, more?: Pick<Change, 'limit'>) => Change;
  readonly contexts: Contexts;
}

function lineChanges(old: readonly Line[], now: readonly Line[], saying: Saying): Change[] {
  const { pairs, gone, added } = paired(old, now);
  const { step, change, contexts } = saying;
  const says = contexts.now.words.change;
  return [
    ...pairs.flatMap(([before, after]) => pairChanges(before, after, saying)),
    ...gone.map(({ sentence }) => change('step', says.noLonger(step, sentence))),
    ...added.map(({ sentence }) => change('step', says.also(step, sentence))),
  ];
}

/** Lines that work on the same; then those of one sort, in their order. */
function paired(old: readonly Line[], now: readonly Line[]) {
  const pairs: (readonly [Line, Line])[] = [];
  let [gone, added] = [[...old], [...now]];
  const isSame = [
    (a: Line, b: Line) => a.sentence === b.sentence,
    (a: Line, b: Line) => subjectOf(a).length > 0 && subjectOf(a).join() === subjectOf(b).join(),
    (a: Line, b: Line) => a.type === b.type && subjectOf(a).length === 0 && subjectOf(b).length === 0,
  ];
  for (const same of isSame) {
    for (const before of gone) {
      const after = added.find((line) => same(before, line));
      if (!after) continue;
      pairs.push([before, after]);
      added = added.filter((line) => line !== after);
    }
    const taken = new Set(pairs.map(([before]) => before));
    gone = gone.filter((line) => !taken.has(line));
  }
  return { pairs, gone, added };
}

function pairChanges(before: Line, after: Line, saying: Saying): Change[] {
  const particular = [...boundChange(before, after, saying), ...timeChange(before, after, saying)];
  const allowed = allowedChange(before, after, saying);
  // Where only the time is otherwise, it is told once.
  const isOther = allowed.length === 0 || awaited(before, saying.contexts.old) !== awaited(after, saying.contexts.now);
  const said = particular.length > 0 || !isOther ? particular : wordChange(before, after, saying);
  return [
    ...said,
    ...allowed,
    ...failureChange(before, after, saying),
    ...lineChanges(before.meanwhile, after.meanwhile, saying),
  ];
}

function wordChange(before: Line, after: Line, { step, change, contexts }: Saying): Change[] {
  const [was, is] = [wordsOf(before), wordsOf(after)];
  if (was === is || (asksOf(before) && asksOf(after) && before.sentence === after.sentence)) return [];
  const says = contexts.now.words.change;
  return after.type === 'set' || after.type === 'ensure' || after.type === 'run'
    ? [change('state', says.was(says.inStep(step, is), was))]
    : [change('wording', says.was(says.reworded(step, is), was))];
}

function wordsOf({ sentence, limits, table }: Line): string {
  return [sentence, ...limits, ...(table?.rows ?? [])].join(' ');
}

interface Asked {
  readonly gauge: Gauge;
  /** Absent where it depends on another gauge. */
  readonly bound?: Bound;
  readonly limit?: string;
  readonly asked: Condition;
}

function asksOf({ source }: Line): Asked | undefined {
  if (!('asked' in source) || source.asked === undefined) return undefined;
  const { asked, gauge } = source;
  if (asked.type === 'bound') return { gauge, bound: asked.bound, asked };
  if (asked.type !== 'limit') return undefined;
  const { bound, name } = asked.limit;
  return { gauge, ...(bound && { bound }), limit: name, asked };
}

/** A limit that the equipment names is told there, once for all who rely on it. */
function boundChange(before: Line, after: Line, { step, change, contexts }: Saying): Change[] {
  const [was, is] = [asksOf(before), asksOf(after)];
  if (!was || !is || (was.limit !== undefined && was.limit === is.limit)) return [];
  const { words } = contexts.now;
  const subject = words.change.inStep(step, limitOf(is.gauge, undefined, words));
  const told = limitChange(
    subject,
    [was, askedTexts(was.asked, contexts.old)],
    [is, askedTexts(is.asked, contexts.now)],
    is.gauge,
    contexts.now,
  );
  return told ? [change('limit', told.text, told)] : [];
}

export function limitOf({ label }: Gauge, name: string | undefined, { change, grammar }: FixedWords): string {
  return change.limitOf(grammar.list([label]), name);
}

type Measured = readonly [of: { readonly bound?: Bound }, texts: readonly string[]];

/** Undefined where it is the same measure. What depends on another gauge has only its words. */
export function limitChange(
  subject: string,
  [was, wasTexts]: Measured,
  [is, isTexts]: Measured,
  gauge: Gauge,
  context: Context,
): Required<Pick<Change, 'text' | 'limit'>> | undefined {
  const said = (limit: LimitChange, now: string, old: string) => ({
    limit,
    text: context.words.change.limit[limit](subject, now, old),
  });
  if (!was.bound || !is.bound) {
    const [now, old] = [isTexts.join('; '), wasTexts.join('; ')];
    return now === old ? undefined : said('another', now, old);
  }
  if (equalIntervals(was.bound.interval, is.bound.interval)) return undefined;
  const words = (bound: Bound) => boundText(boundInUnit(bound, gauge), gauge, context);
  return said(howBoundChanged(was.bound, is.bound), words(is.bound), words(was.bound));
}

function howBoundChanged({ interval: was }: Bound, { interval: is }: Bound): LimitChange {
  if (isWithin(is, was)) return 'tighter';
  return isWithin(was, is) ? 'looser' : 'another';
}

function timeChange(before: Line, after: Line, { step, change, contexts }: Saying): Change[] {
  const [was, is] = [before.source, after.source];
  if ((was.type !== 'run' && was.type !== 'wait') || (is.type !== 'run' && is.type !== 'wait')) return [];
  if (
    is.type === 'run' &&
    was.type === 'run' &&
    is.item.kind.states[is.state]?.name !== was.item.kind.states[was.state]?.name
  )
    return [];
  if (!was.length || !is.length) return [];
  const [old, now] = [spanText(was.length, contexts.old.words), spanText(is.length, contexts.now.words)];
  return old === now ? [] : [change('time', contexts.now.words.change.lasts(step, now, old))];
}

/** How long may pass until something has come about. */
function allowedChange(before: Line, after: Line, { step, change, contexts }: Saying): Change[] {
  const time = (line: Line, { words }: Context) => {
    const within = withinOf(line);
    return within && durationText(within, words);
  };
  const [was, is] = [time(before, contexts.old), time(after, contexts.now)];
  return was === is ? [] : [change('time', contexts.now.words.change.within(step, is, was))];
}

function withinOf({ source }: Line): Seconds | undefined {
  if ('within' in source) return source.within;
  return 'until' in source ? source.until?.within : undefined;
}

/** What is waited for, whatever the time. */
function awaited({ source }: Line, context: Context): string {
  const condition = 'asked' in source ? source.asked : 'until' in source ? source.until?.condition : undefined;
  const state = source.type === 'run' ? source.state : undefined;
  return `${condition ? conditionText(condition, context) : ''} ${state ?? ''}`;
}

function failureChange(before: Line, after: Line, { step, change, contexts }: Saying): Change[] {
  if (!before.failure && !after.failure) return [];
  const says = contexts.now.words.change;
  const words = ({ failure }: Line, context: Context) => (failure ? flowWords(failure.flow, context) : says.goOn);
  const [was, is] = [words(before, contexts.old), words(after, contexts.now)];
  return was === is ? [] : [change('way', says.ifItFails(step, ended(is), ended(was)))];
}
