/** What is otherwise in a step that is in both cards. */
import type { Bound, Condition, Gauge, Step } from '../../shared/card.ts';
import { equalIntervals, isWithin } from '../../shared/interval.ts';
import { boundInUnit } from '../../shared/quantity.ts';
import type { Context } from '../render/context.ts';
import { askedTexts } from '../render/sentences/conditions.ts';
import type { Line } from '../render/sentences/lines.ts';
import { whichText } from '../render/sentences/machines.ts';
import { spanText } from '../render/sentences/times.ts';
import type { Change, ChangeSort } from './change.ts';
import { flowWords } from './flows.ts';
import { subjectOf, type Unit } from './units.ts';

export interface Contexts {
  readonly old: Context;
  readonly now: Context;
}

export function stepChanges(old: Unit, now: Unit, contexts: Contexts): Change[] {
  const [before, after] = [old.part as Step, now.part as Step];
  const step = `Step ${contexts.now.numbering.numberOf(after)}`;
  const change = (sort: ChangeSort, text: string): Change => ({ sort, text, now: now.place, was: old.place });
  const other = (sort: ChangeSort, said: (text: string) => string, a: string, b: string, none: string): Change[] =>
    a === b ? [] : [change(sort, `${said(b || none)} It was ${a || none}.`)];
  return [
    ...other('role', (text) => `${step} is ${text}.`, ...bothWords(before, after, rolesOf), 'by nobody'),
    ...other(
      'time',
      (text) => `${step} takes ${text}.`,
      takesOf(before, contexts.old),
      takesOf(after, contexts.now),
      'no time',
    ),
    ...other(
      'way',
      (text) => `${step} is for ${text}.`,
      onlyOf(before, contexts.old),
      onlyOf(after, contexts.now),
      'all machines',
    ),
    ...other('wording', (text) => `${step} refers to ${text}.`, ...bothWords(before, after, seeOf), 'nothing'),
    ...other('wording', (text) => `${step} comes from ${text}.`, ...bothWords(before, after, sourcesOf), 'no source'),
    ...lineChanges(old.lines, now.lines, { step, change, contexts }),
  ];
}

function bothWords(before: Step, after: Step, words: (step: Step) => string): [string, string] {
  return [words(before), words(after)];
}

const rolesOf = ({ roles }: Step) => (roles.length === 0 ? '' : `by ${roles.map(({ label }) => label).join(' and ')}`);
const seeOf = ({ see }: Step) => see.map(({ text }) => `“${text}”`).join(', ');
const sourcesOf = ({ sources = [] }: Step) => sources.map((text) => `“${text}”`).join(', ');
const takesOf = ({ takes }: Step, { words }: Context) => (takes ? spanText(takes, words) : '');
const onlyOf = ({ only }: Step, { words }: Context) => (only ? whichText(only, words) : '');

interface Saying {
  readonly step: string;
  readonly change: (sort: ChangeSort, text: string) => Change;
  readonly contexts: Contexts;
}

function lineChanges(old: readonly Line[], now: readonly Line[], saying: Saying): Change[] {
  const { pairs, gone, added } = paired(old, now);
  const { step, change } = saying;
  return [
    ...pairs.flatMap(([before, after]) => pairChanges(before, after, saying)),
    ...gone.map(({ sentence }) => change('step', `${step} no longer says: ${sentence}`)),
    ...added.map(({ sentence }) => change('step', `${step} says also: ${sentence}`)),
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
  const said = particular.length > 0 ? particular : wordChange(before, after, saying);
  return [...said, ...failureChange(before, after, saying), ...lineChanges(before.meanwhile, after.meanwhile, saying)];
}

function wordChange(before: Line, after: Line, { step, change }: Saying): Change[] {
  const [was, is] = [wordsOf(before), wordsOf(after)];
  if (was === is || (asksOf(before) && asksOf(after) && before.sentence === after.sentence)) return [];
  return after.type === 'set' || after.type === 'ensure' || after.type === 'run'
    ? [change('state', `${step}: ${is} It was: ${was}`)]
    : [change('wording', `${step} is reworded: ${is} It was: ${was}`)];
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
  if (was.bound && is.bound) {
    const told = boundWordsChanged(was.bound, is.bound, is.gauge);
    return told === undefined ? [] : [change('limit', `${step}: the limit of ${is.gauge.label} is ${told}`)];
  }
  const words = (one: Asked, context: Context) => askedTexts(one.asked, context).join('; ');
  const [text, old] = [words(is, contexts.now), words(was, contexts.old)];
  return text === old
    ? []
    : [change('limit', `${step}: the limit of ${is.gauge.label} is another: ${text}. It was ${old}.`)];
}

/** Undefined where it is the same measure. */
export function boundWordsChanged(was: Bound, is: Bound, gauge: Gauge): string | undefined {
  if (equalIntervals(was.interval, is.interval)) return undefined;
  const how = isWithin(is.interval, was.interval)
    ? 'tighter'
    : isWithin(was.interval, is.interval)
      ? 'looser'
      : 'another';
  return `${how}: ${boundInUnit(is, gauge)}. It was ${boundInUnit(was, gauge)}.`;
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
  return old === now ? [] : [change('time', `${step} lasts ${now}. It was ${old}.`)];
}

function failureChange(before: Line, after: Line, { step, change, contexts }: Saying): Change[] {
  if (!before.failure && !after.failure) return [];
  const words = ({ failure }: Line, context: Context) => (failure ? flowWords(failure.flow, context) : 'go on');
  const [was, is] = [words(before, contexts.old), words(after, contexts.now)];
  return was === is ? [] : [change('way', `${step}, if it fails: ${ended(is)} It was: ${ended(was)}`)];
}

const ended = (text: string) => (/[.!?]”?$/.test(text) ? text : `${text}.`);
