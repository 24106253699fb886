/** Conditions in words: `the left wash valve is closed and the bus voltage is at least 24 V`. */
import type { Bound, Condition, Gauge, Item, Limit, Supply } from '../../../shared/card.ts';
import { boundWords } from '../../../shared/quantity.ts';
import type { Context } from '../context.ts';
import { type Noun, nounOf, type StateOf, stateText } from '../language/kinds.ts';
import type { FixedWords } from '../language/words.ts';
import { boundText } from './bounds.ts';
import { capitalised, ended, labelText, type Placing, spoken } from './labels.ts';
import { durationText } from './times.ts';

/** `placing` says whether each item and gauge is followed by where it is. */
export function conditionText(condition: Condition, context: Context, placing: Placing = 'name'): string {
  const { grammar } = context.words;
  switch (condition.type) {
    case 'and':
    case 'or':
      return termsText(condition.type, condition.terms, context, placing);
    case 'not':
      return negationText(condition.term, context, placing);
    case 'state':
      return stateConditionText(condition, context, placing);
    case 'quantified':
      return grammar[condition.quantifier === 'any' ? 'anyIs' : 'everyIs'](...quantifiedWords(condition, context));
    case 'bound':
    case 'limit':
      return grammar.reading(labelText(condition.gauge, placing), askedTexts(condition, context).join('; '));
    case 'reaches':
      return grammar.reaches(condition.supply.label, nodeText(condition.supply, condition.node));
    case 'open':
      return grammar.open;
  }
}

/** As it stands after "if": `the sump level is below 0.7 m`. */
export function clauseText(condition: Condition, context: Context, placing: Placing = 'name'): string {
  if (!isReading(condition)) return conditionText(condition, context, placing);
  return context.words.grammar.clause(labelText(condition.gauge, placing), askedTexts(condition, context).join('; '));
}

/** As it stands after "until". */
export function untilText(condition: Condition, context: Context, placing: Placing = 'name'): string {
  const text = clauseText(condition, context, placing);
  return isReading(condition) ? text : context.words.grammar.until(text);
}

const isReading = (condition: Condition): condition is Of<'bound' | 'limit'> =>
  condition.type === 'bound' || condition.type === 'limit';

type Of<Type extends Condition['type']> = Extract<Condition, { type: Type }>;

/** Items that must all be in one state are said together: `the left and right lamps are off`. */
function termsText(type: 'and' | 'or', terms: readonly Condition[], context: Context, placing: Placing): string {
  const { grammar } = context.words;
  if (type === 'and' && saysOneState(terms, context.words)) {
    const [{ item, state }] = terms;
    const label = labelsText(
      terms.map((term) => term.item),
      context,
      placing,
    );
    return grammar.areAll(label, stateText(item.kind, state, label, context.words));
  }
  const bound = type === 'and' ? oneBoundOf(terms) : undefined;
  if (bound) {
    const labels = bound.gauges.map((gauge) => labelText(gauge, placing));
    return grammar.readings(labels, boundText(bound.bound, bound.gauges[0] as Gauge, context));
  }
  return grammar[type](terms.map((term) => inner(term, type, context, placing)));
}

/** Several gauges that must all show the same. */
function oneBoundOf(
  terms: readonly Condition[],
): { readonly gauges: readonly Gauge[]; readonly bound: Bound } | undefined {
  const read = terms.flatMap((term) => {
    const bound = term.type === 'bound' ? term.bound : term.type === 'limit' ? term.limit.bound : undefined;
    return bound && 'gauge' in term ? [{ gauge: term.gauge, bound }] : [];
  });
  const [first] = read;
  const isOne = first && terms.length > 1 && read.length === terms.length;
  return isOne && read.every(({ bound }) => boundWords(bound) === boundWords(first.bound))
    ? { gauges: read.map(({ gauge }) => gauge), bound: first.bound }
    : undefined;
}

/** Labels share words and their place where they can: `the left and right levers (centre pedestal)`. */
function labelsText(items: readonly Item[], { words: { grammar } }: Context, placing: Placing): string {
  const [first] = items;
  if (placing === 'name and place' && items.some(({ at }) => at !== first?.at))
    return grammar.and(items.map((item) => labelText(item, placing)));
  const label = grammar.list(items.map((item) => item.label));
  return labelText({ label, ...(first?.at && { at: first.at }) }, placing);
}

/** Whether these are several items in one state. */
export function saysOneState(
  terms: readonly Condition[],
  words: FixedWords,
): terms is readonly [Of<'state'>, ...Of<'state'>[]] {
  const states = terms.map((term) =>
    term.type === 'state' && !term.lasting ? stateText(term.item.kind, term.state, '', words) : undefined,
  );
  return terms.length > 1 && states.every((state) => state !== undefined && state === states[0]);
}

function quantifiedWords({ kind, state }: Of<'quantified'>, { words }: Context): [Noun, StateOf] {
  return [nounOf(kind, words), (label) => stateText(kind, state, label, words)];
}

/** The bound of a limit; of one that depends on another gauge, each row with the readings it is for. */
export function limitTexts(limit: Limit, context: Context): readonly string[] {
  const { grammar, step } = context.words;
  if (limit.bound) return [boundText(limit.bound, limit.gauge, context)];
  const by = limit.by;
  if (by === undefined) return [];
  return by.rows.map(({ when, bound }) => {
    const condition = grammar.reading(by.gauge.label, boundText(when, by.gauge, context));
    return `${boundText(bound, limit.gauge, context)} ${step.when(condition)}`;
  });
}

/** What a reading is asked to be, without the gauge: `at least 24 V`. Several texts where it depends on another gauge. */
export function askedTexts(asked: Condition, context: Context): readonly string[] {
  if (asked.type === 'bound') return [boundText(asked.bound, asked.gauge, context)];
  return asked.type === 'limit' ? limitTexts(asked.limit, context) : [];
}

export function nodeText(supply: Supply, node: number): string {
  const found = supply.nodes[node];
  return found?.item?.label ?? spoken(found?.name ?? '');
}

function stateConditionText(
  { item, state, lasting }: Of<'state'>,
  { words }: Context,
  placing: Placing,
  is = true,
): string {
  const { grammar } = words;
  const named = [labelText(item, placing), stateText(item.kind, state, item.label, words)] as const;
  if (lasting === undefined) return grammar[is ? 'is' : 'isNot'](...named);
  const duration = durationText(lasting.duration, words);
  const length = grammar[lasting.form === 'at least' ? 'atLeast' : 'atMost'](duration);
  return grammar[is ? 'lasting' : 'notLasting'](...named, length);
}

/** A negation as a reader would say it: drawn into what it negates. */
function negationText(term: Condition, context: Context, placing: Placing): string {
  const { grammar } = context.words;
  switch (term.type) {
    case 'and':
    case 'or': {
      const terms = term.terms.map((inside): Condition => ({ type: 'not', term: inside, place: inside.place }));
      return termsText(term.type === 'and' ? 'or' : 'and', terms, context, placing);
    }
    case 'not':
      return conditionText(term.term, context, placing);
    case 'state':
      return stateConditionText(term, context, placing, false);
    case 'quantified':
      return grammar[term.quantifier === 'any' ? 'noneIs' : 'notEveryIs'](...quantifiedWords(term, context));
    case 'bound':
    case 'limit':
      return notReadingText(term, context, placing);
    case 'reaches':
      return grammar.notReaches(term.supply.label, nodeText(term.supply, term.node));
    case 'open':
      return grammar.open;
  }
}

const opposites = { 'at least': 'below', below: 'at least', 'at most': 'above', above: 'at most' } as const;

/** What is not at least 24 V is below it. */
function notReadingText(term: Of<'bound' | 'limit'>, context: Context, placing: Placing): string {
  const { grammar } = context.words;
  const bound = term.type === 'bound' ? term.bound : term.limit.bound;
  const gauge = labelText(term.gauge, placing);
  if (bound === undefined || bound.form === 'range' || bound.form === 'exactly')
    return grammar.notReading(gauge, askedTexts(term, context).join('; '));
  const { low, high, ...rest } = bound;
  const ends = { ...(high && { low: high }), ...(low && { high: low }) };
  return grammar.reading(gauge, boundText({ ...rest, ...ends, form: opposites[bound.form] }, term.gauge, context));
}

/** An `or` inside an `and`, or the other way round, is grouped so that it cannot be read wrongly. */
function inner(term: Condition, outer: 'and' | 'or', context: Context, placing: Placing): string {
  const text = conditionText(term, context, placing);
  const isJoined = (one: Condition) => one.type === 'and' || one.type === 'or';
  const mixes = isJoined(term) ? term.type !== outer : term.type === 'not' && isJoined(term.term);
  return mixes ? context.words.grammar.group(text) : text;
}

/** `the left wash valve is open`. */
export function itemStateText(
  item: Item,
  states: readonly number[],
  { words }: Context,
  placing: Placing = 'name',
): string {
  return words.grammar.is(
    labelText(item, placing),
    words.grammar.or(states.map((state) => stateText(item.kind, state, item.label, words))),
  );
}

/** `The left valve (left nacelle) is closed.` */
export function stateSentence(item: Item, states: readonly number[], context: Context): string {
  return ended(capitalised(itemStateText(item, states, context, 'name and place'), context.words.tag));
}
