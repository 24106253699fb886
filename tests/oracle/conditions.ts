/** Conditions in a concrete world: true or false where everything is seen, and sure or not where readings and times are only partly known. */
import type { Action, Card, Condition, Equipment, Item, Stage, Statement, Supply } from '../../shared/card.ts';

export type BoundTerm = Extract<Condition, { type: 'bound' | 'limit' }>;
export type LastingTerm = Extract<Condition, { type: 'state' }>;
export type Term = Exclude<Condition, { type: 'or' | 'and' | 'not' | 'quantified' }>;

/** A term with the truth that is wanted of it. */
export interface Literal {
  readonly term: Term;
  readonly wanted: boolean;
}

/** Truth of a condition whose terms are each simply true or false. */
export function truth(condition: Condition, termHolds: (term: Term) => boolean): boolean {
  switch (condition.type) {
    case 'or':
      return condition.terms.some((term) => truth(term, termHolds));
    case 'and':
      return condition.terms.every((term) => truth(term, termHolds));
    case 'not':
      return !truth(condition.term, termHolds);
    case 'quantified':
      return truth(condition.written, termHolds);
    default:
      return termHolds(condition);
  }
}

/** The condition as alternatives, each a list of literals that must all hold: negations driven down to the terms. */
export function alternatives(condition: Condition, wanted = true): readonly (readonly Literal[])[] {
  switch (condition.type) {
    case 'not':
      return alternatives(condition.term, !wanted);
    case 'quantified':
      return alternatives(condition.written, wanted);
    case 'or':
    case 'and': {
      const parts = condition.terms.map((term) => alternatives(term, wanted));
      const anyOfThem = (condition.type === 'or') === wanted;
      return anyOfThem
        ? parts.flat()
        : parts.reduce((left, right) => left.flatMap((a) => right.map((b) => [...a, ...b])), [[]]);
    }
    default:
      return [[{ term: condition, wanted }]];
  }
}

/** True where some alternative has only literals that are sure: an unknown reading is sure in neither sense. */
export function sure(condition: Condition, literalSure: (literal: Literal) => boolean): boolean {
  return alternatives(condition).some((literals) => literals.every(literalSure));
}

export function termsOf(condition: Condition): readonly Term[] {
  switch (condition.type) {
    case 'or':
    case 'and':
      return condition.terms.flatMap(termsOf);
    case 'not':
      return termsOf(condition.term);
    case 'quantified':
      return termsOf(condition.written);
    default:
      return [condition];
  }
}

export function boundTerms(condition: Condition): readonly BoundTerm[] {
  return termsOf(condition).filter((term) => term.type === 'bound' || term.type === 'limit');
}

export function lastingTerms(condition: Condition): readonly LastingTerm[] {
  return termsOf(condition).filter((term): term is LastingTerm => term.type === 'state' && term.lasting !== undefined);
}

/** An item that only can be seen, or that may come to a state without anybody's doing. */
export function goesByItself(item: Item): boolean {
  return item.kind.seen || item.may.length > 0;
}

/** The items that conditions look at, also behind supplies. */
export function itemsIn(conditions: readonly (Condition | undefined)[], supplies = new Set<Supply>()): Set<Item> {
  const items = new Set<Item>();
  for (const condition of conditions) {
    for (const term of condition ? termsOf(condition) : []) {
      if (term.type === 'state') items.add(term.item);
      if (term.type !== 'reaches' || supplies.has(term.supply)) continue;
      supplies.add(term.supply);
      const behind = [...term.supply.sources, ...term.supply.links].map(({ when }) => when);
      for (const item of itemsIn(behind, supplies)) items.add(item);
    }
  }
  return items;
}

/** Every condition that the equipment or the card asks anywhere. */
export function allConditions(card: Card): readonly Condition[] {
  return [...equipmentConditions(card.equipment), ...card.body.flatMap(statementConditions)];
}

function equipmentConditions(equipment: Equipment): readonly Condition[] {
  const found = [
    ...equipment.items.flatMap((item) => item.may.map((may) => may.when)),
    ...equipment.supplies.flatMap((supply) => [...supply.sources, ...supply.links].map((part) => part.when)),
    ...equipment.hazards.flatMap((hazard) => [hazard.condition, hazard.protect]),
    ...equipment.rules.flatMap((rule) => [rule.condition, rule.require]),
  ];
  return found.filter((condition) => condition !== undefined);
}

export function statementConditions(statement: Stage | Statement): readonly Condition[] {
  const own = conditionOf(statement);
  return [
    ...(own ? [own] : []),
    ...(statement.type === 'step' ? statement.actions.flatMap(actionConditions) : []),
    ...bodiesOf(statement).flat().flatMap(statementConditions),
  ];
}

function conditionOf(statement: Stage | Statement): Condition | undefined {
  if (statement.type === 'if' || statement.type === 'keep') return statement.condition;
  return statement.type === 'repeat' ? statement.until?.condition : undefined;
}

/** The lists of statements that stand directly in a statement. */
export function bodiesOf(statement: Stage | Statement): readonly (readonly (Stage | Statement)[])[] {
  switch (statement.type) {
    case 'stage':
    case 'repeat':
    case 'do':
    case 'mend':
      return [statement.body];
    case 'if':
      return statement.otherwise ? [statement.body, statement.otherwise] : [statement.body];
    case 'together':
      return statement.lanes.map((lane) => lane.body);
    case 'for-each':
      return statement.rounds;
    case 'choose':
      return statement.ways.map((way) => way.body);
    default:
      return [];
  }
}

export function actionConditions(action: Action | { readonly type: 'sign' | 'accept' }): readonly Condition[] {
  switch (action.type) {
    case 'check':
      return action.condition ? [action.condition] : [];
    case 'read':
      return action.asked ? [action.asked] : [];
    case 'bring':
      return [action.asked];
    case 'run':
      return [...(action.until ? [action.until.condition] : []), ...action.watches.map((watch) => watch.asked)];
    case 'wait':
      return action.until ? [action.until.condition] : [];
    default:
      return [];
  }
}
