/** Whether a condition holds somewhere, and what of it does not. */
import type { Condition, Gauge, Item, Seconds } from '../../../shared/card.ts';
import { seconds, secondsTold, ticks } from '../../flow/time.ts';
import type { Unmet } from '../break.ts';
import { evaluate, knownIn, partWhere, type Variables, type View } from '../meaning/evaluate.ts';
import { GaugeRegions } from '../meaning/regions.ts';
import { bitsOf, type State } from '../meaning/state.ts';
import { type StateTerm, thingsIn } from '../meaning/things.ts';
import { drifts } from '../meaning/transition-facts.ts';
import type { Look } from '../slicing/question.ts';

/** Whether the condition may hold before the card begins, when no reading is known. */
export function mayBeMetAtStart(condition: Condition, start: (item: Item) => number): boolean {
  const items = [...thingsIn(condition).items];
  const places = new Map(items.map((item, index) => [item, index]));
  const variables: Variables = {
    ofItem: (item) => places.get(item),
    ofGauge: () => undefined,
    regions: () => GaugeRegions.of([]),
  };
  return partWhere(condition, items.map(start), variables, (answer) => answer === 'yes', knownIn) !== undefined;
}

/** Whether the condition may hold there. `asks` says which answers count. */
export function somewhere(
  look: Look,
  condition: Condition,
  asks: (answer: 'yes' | 'no' | 'unknown') => boolean,
): State | undefined {
  return partWhere(condition, look.node.state, look.variables, asks, (part) => look.view(part, 'known'));
}

/** What of a requirement does not hold, term by term. */
export function unmetTerms(require: Condition, view: View, look: Look, wanted = true): Unmet[] {
  const answer = evaluate(require, view, look.variables);
  if (answer === (wanted ? 'yes' : 'no')) return [];
  switch (require.type) {
    case 'and':
    case 'or':
      return require.terms.flatMap((term) => unmetTerms(term, view, look, wanted));
    case 'not':
      return unmetTerms(require.term, view, look, !wanted);
    case 'quantified':
      return unmetTerms(require.written, view, look, wanted);
    case 'state':
      return unmetState(require, view, look, wanted);
    case 'bound':
    case 'limit':
      return [unmetReading(require.gauge, answer !== 'unknown', view, look)];
    case 'reaches':
      return [{ type: 'supply', supply: require.supply, node: require.node, wanted }];
    case 'open':
      return [];
  }
}

function unmetReading(gauge: Gauge, known: boolean, { state }: View, { variables }: Look): Unmet {
  const shown = state[variables.ofGauge(gauge) ?? -1];
  const inPart = !known && shown !== undefined && shown !== variables.regions(gauge).all;
  return { type: 'reading', gauge, known, ...(inPart && { inPart }) };
}

/** All that an item may be in: the state that shows the break is only a part of it, unless the move sets the item. What may go by itself may go with the move. */
function possibleStates({ move, node }: Look, item: Item, variable: number, shown: number): number {
  const before = node.state[variable];
  if (before === undefined || ('item' in move.happening && move.happening.item === item)) return shown;
  return drifts(item) ? before | shown : before;
}

function unmetState(term: StateTerm, view: View, look: Look, wanted: boolean): Unmet[] {
  const { lasting, item } = term;
  const variable = look.variables.ofItem(item);
  if (variable === undefined) return [];
  const possible = bitsOf(possibleStates(look, item, variable, view.state[variable] as number));
  if (lasting && possible.length === 1 && possible[0] === term.state) {
    const sure = wanted && lasting.form === 'at least' ? { sure: sureTime(term, lasting, view) } : {};
    return [{ type: 'time', item, state: term.state, form: lasting.form, wanted: lasting.duration, ...sure }];
  }
  const states = item.kind.states.map((_, index) => index);
  return [
    { type: 'item', item, wanted: wanted ? [term.state] : states.filter((index) => index !== term.state), possible },
  ];
}

/** The longest time that the item is sure to have been so, found by asking for a longer and a shorter one. */
function sureTime(term: StateTerm, lasting: NonNullable<StateTerm['lasting']>, view: View): Seconds {
  let [sure, unsure] = [0, ticks(lasting.duration)];
  while (unsure - sure > 1) {
    const middle = Math.floor((sure + unsure) / 2);
    const asked = { ...term, lasting: { ...lasting, duration: seconds(middle) } };
    if (view.lasting?.(asked) === 'yes') sure = middle;
    else unsure = middle;
  }
  return secondsTold(sure);
}
