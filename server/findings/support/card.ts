/** Walks the card model: every statement and action, in the order of the card. */
import { blocksOf } from '../../../shared/blocks.ts';
import type { Accept, Action, Card, Item, Role, Sign, Stage, Statement, Step } from '../../../shared/card.ts';

/** Whether a stage or statement counts: it does with all that is in it, or not at all. */
export type Has = (part: Stage | Statement) => boolean;

const all: Has = () => true;

export function* statementsIn(body: readonly (Stage | Statement)[], has: Has = all): Generator<Stage | Statement> {
  for (const statement of body) {
    if (!has(statement)) continue;
    yield statement;
    for (const inner of blocksOf(statement)) yield* statementsIn(inner, has);
  }
}

/** Every list of statements that follow each other: the card's own, and that of each block in it. An `else if` is no list of its own. */
export function* rowsIn(
  body: readonly (Stage | Statement)[],
  has: Has = all,
): Generator<readonly (Stage | Statement)[]> {
  const row = body.filter(has);
  yield row;
  yield* rowsBelow(row, has);
}

function* rowsBelow(row: readonly (Stage | Statement)[], has: Has): Generator<readonly (Stage | Statement)[]> {
  for (const statement of row) {
    if (statement.type === 'if' && statement.chained) {
      yield* rowsIn(statement.body, has);
      yield* rowsBelow((statement.otherwise ?? []).filter(has), has);
    } else for (const inner of blocksOf(statement)) yield* rowsIn(inner, has);
  }
}

export function* actionsIn(body: readonly (Stage | Statement)[], has: Has = all): Generator<Action | Sign | Accept> {
  for (const statement of statementsIn(body, has)) if (statement.type === 'step') yield* statement.actions;
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

export function changesItem(statement: Stage | Statement, item: Item): boolean {
  if (statement.type !== 'step') return false;
  return statement.actions.some(
    (action) =>
      (action.type === 'run' && action.item === item) ||
      ((action.type === 'set' || action.type === 'ensure') && action.changes.some((change) => change.item === item)),
  );
}
