/** Walks the card model: every statement and action, in the order of the card. */
import { blocksOf } from '../../../shared/blocks.ts';
import type { Accept, Action, Card, Item, Role, Sign, Stage, Statement, Step } from '../../../shared/card.ts';

export function* statementsIn(body: readonly (Stage | Statement)[]): Generator<Stage | Statement> {
  for (const statement of body) {
    yield statement;
    for (const inner of blocksOf(statement)) yield* statementsIn(inner);
  }
}

/** Every list of statements that follow each other: the card's own, and that of each block in it. An `else if` is no list of its own. */
export function* rowsIn(body: readonly (Stage | Statement)[]): Generator<readonly (Stage | Statement)[]> {
  yield body;
  yield* rowsBelow(body);
}

function* rowsBelow(body: readonly (Stage | Statement)[]): Generator<readonly (Stage | Statement)[]> {
  for (const statement of body) {
    if (statement.type === 'if' && statement.chained) {
      yield* rowsIn(statement.body);
      yield* rowsBelow(statement.otherwise ?? []);
    } else for (const inner of blocksOf(statement)) yield* rowsIn(inner);
  }
}

export function* actionsIn(body: readonly (Stage | Statement)[]): Generator<Action | Sign | Accept> {
  for (const statement of statementsIn(body)) if (statement.type === 'step') yield* statement.actions;
}

/** Every step with the role that does it where the step itself does not say: that of the lane round it. */
export function* stepsIn(
  body: readonly (Stage | Statement)[],
  laneRole?: Role,
): Generator<{ readonly step: Step; readonly laneRole?: Role }> {
  for (const statement of body) {
    if (statement.type === 'step') yield { step: statement, ...(laneRole && { laneRole }) };
    else if (statement.type === 'together') {
      for (const lane of statement.lanes) yield* stepsIn(lane.body, lane.role ?? laneRole);
    } else for (const inner of blocksOf(statement)) yield* stepsIn(inner, laneRole);
  }
}

/** The roles of a card as a writer would list them. */
export function rolesInWords(card: Card): string {
  return card.crew.map((role) => role.name).join(', ');
}

/** Every `accept` in a card, those in what it does included. */
export function acceptsIn(card: Card): Accept[] {
  const inBlocks = [...statementsIn(card.body)].filter((statement) => statement.type === 'accept');
  const inSteps = [...actionsIn(card.body)].filter((action) => action.type === 'accept');
  return [...inBlocks, ...inSteps];
}

export function stateName(item: Item, state: number): string {
  return item.kind.states[state]?.name ?? '';
}
