/** When a `before` rule is asked. */
import type { Condition, Item } from '../../../shared/card.ts';
import { mostConjunctions } from '../../flow/limits.ts';

/** A condition that names an item, and whether it must hold or must not. */
interface Literal {
  readonly term: Condition;
  readonly holds: boolean;
}

/** Literals that must all be so. */
type Conjunction = readonly Literal[];

/** The condition as alternatives, each a row of literals; undefined where they would be too many. */
export function alternatives(condition: Condition, holds = true): readonly Conjunction[] | undefined {
  switch (condition.type) {
    case 'not':
      return alternatives(condition.term, !holds);
    case 'quantified':
      return alternatives(condition.written, holds);
    case 'and':
    case 'or': {
      const parts = condition.terms.map((term) => alternatives(term, holds));
      if (parts.some((part) => part === undefined)) return undefined;
      const known = parts as (readonly Conjunction[])[];
      return (condition.type === 'or') === holds ? limited(known.flat()) : limited(combine(known));
    }
    default:
      return [[{ term: condition, holds }]];
  }
}

function limited(conjunctions: readonly Conjunction[]): readonly Conjunction[] | undefined {
  return conjunctions.length <= mostConjunctions ? conjunctions : undefined;
}

function combine(parts: readonly (readonly Conjunction[])[]): readonly Conjunction[] {
  let combined: readonly Conjunction[] = [[]];
  for (const part of parts) {
    combined = combined.flatMap((row) => part.map((other) => [...row, ...other]));
    if (combined.length > mostConjunctions) return combined;
  }
  return combined;
}

/** For an action on an item: what must newly be so, and the whole alternative that must then hold. */
export interface Beginning {
  readonly newly: Condition;
  readonly whole: Condition;
}

export function beginningsBy(item: Item, condition: Condition): readonly Beginning[] {
  const rows = alternatives(condition);
  if (!rows) return [{ newly: condition, whole: condition }];
  return rows.flatMap((row) =>
    row
      .filter(({ term }) => looksAt(term, item))
      .map((literal) => ({ newly: asCondition([literal]), whole: asCondition(row) })),
  );
}

function looksAt(term: Condition, item: Item): boolean {
  return term.type === 'state' ? term.item === item : term.type === 'reaches';
}

function asCondition(row: Conjunction): Condition {
  const place = (row[0] as Literal).term.place;
  return { type: 'and', place, terms: row.map(({ term, holds }) => (holds ? term : { type: 'not', term, place })) };
}
