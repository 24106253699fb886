/** Conditions in words: `the left wash valve is closed and the bus voltage is at least 24 V`. */
import type { Condition, Item, Limit, Supply } from '../../../shared/card.ts';
import type { Context } from '../context.ts';
import { boundText } from './bounds.ts';
import { labelText, type Placing, spoken, stateText } from './labels.ts';
import { durationText } from './times.ts';

/** `placing` says whether each item and gauge is followed by where it is. */
export function conditionText(condition: Condition, context: Context, placing: Placing = 'name'): string {
  const { grammar } = context.words;
  switch (condition.type) {
    case 'and':
    case 'or':
      return grammar[condition.type](condition.terms.map((term) => inner(term, condition.type, context, placing)));
    case 'not':
      return negationText(condition.term, context, placing);
    case 'state':
      return stateConditionText(condition, context, placing);
    case 'quantified':
      return condition.quantifier === 'any'
        ? grammar.anyIs(spoken(condition.kind.name), stateText(condition.kind, condition.state))
        : grammar.everyIs(spoken(condition.kind.name), stateText(condition.kind, condition.state));
    case 'bound':
      return grammar.reading(labelText(condition.gauge, placing), boundText(condition.bound, condition.gauge, context));
    case 'limit':
      return grammar.reading(labelText(condition.gauge, placing), limitTexts(condition.limit, context).join('; '));
    case 'reaches':
      return grammar.reaches(condition.supply.label, nodeText(condition.supply, condition.node));
    case 'open':
      return grammar.open;
  }
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
  condition: Extract<Condition, { type: 'state' }>,
  { words }: Context,
  placing: Placing,
): string {
  const label = labelText(condition.item, placing);
  const state = stateText(condition.item.kind, condition.state);
  if (condition.lasting === undefined) return words.grammar.is(label, state);
  const duration = durationText(condition.lasting.duration, words);
  return words.grammar.lasting(
    label,
    state,
    words.grammar[condition.lasting.form === 'at least' ? 'atLeast' : 'atMost'](duration),
  );
}

function negationText(term: Condition, context: Context, placing: Placing): string {
  const { grammar } = context.words;
  if (term.type === 'state' && term.lasting === undefined) {
    return grammar.isNot(labelText(term.item, placing), stateText(term.item.kind, term.state));
  }
  return grammar.not(conditionText(term, context, placing));
}

/** An `or` inside an `and`, or the other way round, is grouped so that it cannot be read wrongly. */
function inner(term: Condition, outer: 'and' | 'or', context: Context, placing: Placing): string {
  const text = conditionText(term, context, placing);
  const mixes = (term.type === 'and' || term.type === 'or') && term.type !== outer;
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
    words.grammar.or(states.map((state) => stateText(item.kind, state))),
  );
}

/** The items that a condition names. */
export function itemsIn(condition: Condition): readonly Item[] {
  switch (condition.type) {
    case 'and':
    case 'or':
      return condition.terms.flatMap(itemsIn);
    case 'not':
      return itemsIn(condition.term);
    case 'state':
      return [condition.item];
    case 'quantified':
      return itemsIn(condition.written);
    default:
      return [];
  }
}
