/** The places of a card at which a verdict may stand: its name, its assumptions, its statements and their actions. */
import type { Card, Stage, Statement } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import { bodiesOf } from './conditions.ts';

export interface Node {
  readonly type: string;
  readonly place: Place;
}

export function nodesOf(card: Card): readonly Node[] {
  return [
    { type: 'card', place: card.place },
    ...card.assumes.map(({ place }) => ({ type: 'assume', place })),
    ...card.body.flatMap(statementNodes),
  ];
}

function statementNodes(statement: Stage | Statement): readonly Node[] {
  const actions = statement.type === 'step' ? statement.actions : [];
  return [statement, ...actions, ...bodiesOf(statement).flat().flatMap(statementNodes)];
}
