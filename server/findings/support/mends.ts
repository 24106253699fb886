/** Fixes that write a step into a card. */
import type { Card, Item, Role, Stage, Statement } from '../../../shared/card.ts';
import type { Fix, TextEdit } from '../../../shared/finding.ts';
import type { Place } from '../../../shared/text.ts';
import type { Unmet } from '../../proof/facts.ts';
import { insertAfter, insertBefore, type TextOf } from './edits.ts';
import { isSetTo, statementAt, stepAt } from './where.ts';
import { stateName } from './words.ts';

export interface ItemState {
  readonly item: Item;
  readonly state: number;
}

export interface MendedCard {
  readonly card: Card;
  readonly textOf: TextOf;
}

/** The states to bring about so that what is unmet is met; undefined where that takes more than setting items. */
export function statesThatMeet(unmet: readonly Unmet[]): readonly ItemState[] | undefined {
  const states = unmet.map((part) => (part.type === 'item' ? stateOf(part) : undefined));
  return states.length > 0 && states.every((state) => state !== undefined) ? states : undefined;
}

function stateOf({ item, wanted }: Extract<Unmet, { readonly type: 'item' }>): ItemState | undefined {
  const [state] = wanted;
  return state === undefined ? undefined : { item, state };
}

/**
 * Writes a step that brings these states about before the step at a place, by the same role, and puts back at the end of the
 * card what would otherwise be left out of its normal state. What can only be seen is checked. Undefined where the step itself
 * changes one of the items: then no step before it helps.
 */
export function bringAboutBefore(
  place: Place,
  states: readonly ItemState[],
  { card, textOf }: MendedCard,
): Fix | undefined {
  const before = statementAt(card, place);
  if (!before || states.some(({ item }) => changesItem(before, item))) return undefined;
  const by = roleWords(card, place);
  const steps = states.map(
    ({ item, state }) => `step${by} ${item.kind.seen ? 'check' : 'set'} ${item.name} ${stateName(item, state)}`,
  );
  return {
    title: `Insert: ${steps.join(', ')}`,
    edits: [...steps.map((step) => insertBefore(before.place, step, textOf)), ...putBacks(states, card, by, textOf)],
  };
}

function byRole(role: Role | undefined): string {
  return role ? ` by ${role.name}` : '';
}

/** ` by ROLE` as the step at a place says it, for another step beside it. */
export function roleWords(card: Card, place: Place): string {
  return byRole(stepAt(card, place)?.roles[0]);
}

function changesItem(statement: Statement, item: Item): boolean {
  if (statement.type !== 'step') return false;
  return statement.actions.some(
    (action) =>
      (action.type === 'run' && action.item === item) ||
      ((action.type === 'set' || action.type === 'ensure') && action.changes.some((change) => change.item === item)),
  );
}

function putBacks(states: readonly ItemState[], card: Card, by: string, textOf: TextOf): TextEdit[] {
  const last = lastStatement(card);
  const changed = states.filter(({ item, state }) => {
    const normal = item.normally;
    return (
      normal !== undefined &&
      normal !== state &&
      !item.kind.seen &&
      !staysAway(card, item) &&
      !isSetTo(card, item, normal)
    );
  });
  if (!last || changed.length === 0) return [];
  const step = `step${by} set ${changed.map(({ item }) => `${item.name} ${stateName(item, item.normally as number)}`).join(', ')}`;
  return [
    last.type === 'finish' || last.type === 'stop' || last.type === 'go'
      ? insertBefore(last.place, step, textOf)
      : insertAfter(last.place, step, textOf),
  ];
}

function staysAway(card: Card, item: Item): boolean {
  return card.leaves.some((left) => left.item === item);
}

/** The last statement in the run of the card. */
function lastStatement(card: Card): Statement | undefined {
  const last: Stage | Statement | undefined = card.body.findLast((part) => part.type !== 'stage' || !part.whenStopped);
  return last?.type === 'stage' ? last.body.at(-1) : last;
}
