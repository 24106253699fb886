/**
 * Whether a condition holds in a state. Where an item's possible states leave it open, the answer is a split: which
 * variable to look at, and how, before the question can be answered.
 */
import type { Condition, Item, Supply } from '../../../shared/card.ts';
import { type Answer, isSplit, opposite, type Split } from './answer.ts';
import { type Gauges, possibleRegions } from './readings.ts';
import { writtenOut } from './regions.ts';
import { bitsOf, type State, withValue } from './state.ts';
import { dependsOnSupplies, type Fed, nodesFed, suppliesBehind, suppliesNamed } from './supply.ts';

/** How readings are taken: as what the gauge shows (and a look at it tells), as what the path knows, or as met whatever they are. */
export type ReadingsAs = 'world' | 'known' | 'met';

export interface View {
  readonly state: State;
  /** Readings are looked up here; the same as `state` but for a rule, which sees those from before the action. */
  readonly readings: State;
  readonly as: ReadingsAs;
  /** With readings `met`: the answer of a reading, which a `not` turns round. */
  readonly metIs?: 'yes' | 'no';
  /** How long an item has been in its state, where the path keeps time. */
  readonly lasting?: (condition: Extract<Condition, { type: 'state' }>) => Answer;
  /** While supplies that depend on each other are worked out: what the round before found. */
  readonly fed?: ReadonlyMap<Supply, Fed>;
}

export interface Variables extends Gauges {
  readonly ofItem: (item: Item) => number | undefined;
}

/** What an item that the question follows may be in a state, as a mask. */
export function statesOf(item: Item, state: State, { ofItem }: Pick<Variables, 'ofItem'>): number {
  return state[ofItem(item) as number] as number;
}

export function evaluate(condition: Condition, view: View, variables: Variables): Answer {
  switch (condition.type) {
    case 'and':
      return all(condition.terms, (term) => evaluate(term, view, variables), 'no', 'yes');
    case 'or':
      return all(condition.terms, (term) => evaluate(term, view, variables), 'yes', 'no');
    case 'not':
      return opposite(evaluate(condition.term, inverted(view), variables));
    case 'quantified':
      return evaluate(condition.written, view, variables);
    case 'state':
      return stateAnswer(condition, view, variables);
    case 'bound':
      return readingAnswer(condition, view, variables);
    case 'limit':
      return limitAnswer(condition, view, variables);
    case 'reaches':
      return reachAnswer(condition.supply, condition.node, view, variables);
    case 'open':
      return 'unknown';
  }
}

/** Under a `not`, a reading that counts as met must count as failed. */
function inverted(view: View): View {
  return view.as === 'met' ? { ...view, metIs: view.metIs === 'no' ? 'yes' : 'no' } : view;
}

function all<T>(
  terms: readonly T[],
  answer: (term: T) => Answer,
  settles: 'yes' | 'no',
  otherwise: 'yes' | 'no',
): Answer {
  let split: Split | undefined;
  let unknown = false;
  for (const term of terms) {
    const found = answer(term);
    if (found === settles) return settles;
    if (isSplit(found)) split ??= found;
    else if (found === 'unknown') unknown = true;
  }
  return split ?? (unknown ? 'unknown' : otherwise);
}

function maskAnswer(variable: number, possible: number, wanted: number): Answer {
  const inside = possible & wanted;
  if (inside === 0) return 'no';
  return inside === possible ? 'yes' : { variable, mask: wanted };
}

function stateAnswer(condition: Extract<Condition, { type: 'state' }>, view: View, variables: Variables): Answer {
  const variable = variables.ofItem(condition.item);
  if (variable === undefined) return 'unknown';
  const inState = maskAnswer(variable, view.state[variable] as number, 1 << condition.state);
  if (!condition.lasting || inState !== 'yes') return inState;
  return view.lasting?.(condition) ?? 'unknown';
}

function readingAnswer(condition: Extract<Condition, { type: 'bound' }>, view: View, variables: Variables): Answer {
  if (view.as === 'met') return view.metIs ?? 'yes';
  const reading = variables.ofGauge(condition.gauge);
  if (reading === undefined) return 'unknown';
  const wanted = variables.regions(condition.gauge).maskOf(condition.bound.interval);
  // A bound that nothing satisfies has a finding of its own, and nothing follows from it.
  if (!wanted) return 'unknown';
  const answer = maskAnswer(reading, possibleRegions(condition.gauge, reading, view.readings, variables), wanted);
  return isSplit(answer) && view.as === 'known' ? 'unknown' : answer;
}

/** A limit with rows holds where it holds in every row that the other gauge may select. */
function limitAnswer(condition: Extract<Condition, { type: 'limit' }>, view: View, variables: Variables): Answer {
  const { limit, gauge, place } = condition;
  const written = writtenOut(limit, gauge, place);
  const other = limit.by && view.as === 'known' ? variables.ofGauge(limit.by.gauge) : undefined;
  if (!limit.by || other === undefined) return evaluate(written, view, variables);
  const answers = bitsOf(possibleRegions(limit.by.gauge, other, view.readings, variables)).map((region) =>
    evaluate(written, { ...view, readings: withValue(view.readings, other, 1 << region) }, variables),
  );
  const [first, ...others] = answers;
  return first !== undefined && others.every((answer) => answer === first) ? first : 'unknown';
}

function reachAnswer(supply: Supply, node: number, view: View, variables: Variables): Answer {
  const fed = view.fed ? view.fed.get(supply) : settledSupply(supply, view, variables);
  if (!fed?.perhaps.has(node)) return 'no';
  return fed.surely.has(node) ? 'yes' : (fed.open ?? 'unknown');
}

/** Supplies that depend on each other start from nothing fed, and each round sees what the round before fed. */
function settledSupply(supply: Supply, view: View, variables: Variables): Fed | undefined {
  const supplies = suppliesBehind(supply);
  let fed: ReadonlyMap<Supply, Fed> = new Map();
  const mostRounds = 2 * supplies.reduce((nodes, one) => nodes + one.nodes.length, 1);
  for (let round = 0; round < mostRounds; round++) {
    const before = fed;
    fed = new Map(
      supplies.map((one) => [one, nodesFed(one, (when) => evaluate(when, { ...view, fed: before }, variables))]),
    );
    if (!dependsOnSupplies(supply)) return fed.get(supply);
    if (supplies.every((one) => sameFed(before.get(one), fed.get(one)))) return fed.get(supply);
  }
  return restlessSupply(supply, view, variables);
}

/** Supplies that switch each other off and on come to no rest: of what hangs on them nothing is known. */
function restlessSupply(supply: Supply, view: View, variables: Variables): Fed {
  return nodesFed(supply, (when) => (suppliesNamed(when).length > 0 ? 'unknown' : evaluate(when, view, variables)));
}

function sameFed(before: Fed | undefined, after: Fed | undefined): boolean {
  return (
    before !== undefined &&
    after !== undefined &&
    before.surely.size === after.surely.size &&
    before.perhaps.size === after.perhaps.size &&
    [...before.surely].every((node) => after.surely.has(node)) &&
    [...before.perhaps].every((node) => after.perhaps.has(node))
  );
}

/** The parts of a state in which the condition surely gives one of the wanted answers. */
export function partsWhere(
  condition: Condition,
  state: State,
  variables: Variables,
  wanted: (answer: 'yes' | 'no' | 'unknown') => boolean,
  view: (state: State) => View,
): State[] {
  const parts: State[] = [];
  somePart(state, (part) => {
    const answer = evaluate(condition, view(part), variables);
    if (isSplit(answer)) return answer;
    if (wanted(answer)) parts.push(part);
    return false;
  });
  return parts;
}

/** As `partsWhere`, the first that is found. */
export function partWhere(
  condition: Condition,
  state: State,
  variables: Variables,
  wanted: (answer: 'yes' | 'no' | 'unknown') => boolean,
  view: (state: State) => View,
): State | undefined {
  return somePart(state, (part) => {
    const answer = evaluate(condition, view(part), variables);
    return isSplit(answer) ? answer : wanted(answer);
  });
}

/** A part of a state for which the decision is yes, cut no further than it takes; undefined where there is none. */
export function somePart(state: State, decide: (part: State) => boolean | Split): State | undefined {
  const waiting: State[] = [state];
  for (let part = waiting.pop(); part; part = waiting.pop()) {
    const decision = decide(part);
    if (decision === true) return part;
    if (decision !== false) waiting.push(...divided(part, decision));
  }
  return undefined;
}

/** What the path knows in a state by itself, where nothing asks how long something has been so. */
export function knownIn(state: State): View {
  return { state, readings: state, as: 'known' };
}

/** Both halves of a state, cut at one variable; last the one that speaks for a yes. Throws where the cut leaves nothing on one side: going on would have no end. */
export function divided(state: State, { variable, mask }: Split): State[] {
  const possible = state[variable] as number;
  const parts = [possible & ~mask, possible & mask];
  if (parts.includes(0))
    throw new Error(`variable ${variable} of the state ${state.join()} is cut where nothing parts`);
  return parts.map((part) => withValue(state, variable, part));
}
