/** What stands at a place of a card. Each card is walked once, however many findings ask. */
import type { Card, Item, Role, Stage, Statement, Step } from '../../../shared/card.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { oncePerStructure } from '../../../shared/structure.ts';
import { holds, type Place } from '../../../shared/text.ts';
import { statementsIn, stepsIn } from './card.ts';

interface Entry {
  readonly statement: Statement;
  /** The innermost other statement round it. */
  readonly outer?: Entry;
}

/** The innermost statement round a place. */
export function statementAt(card: Card, place: Place): Statement | undefined {
  const entries = entriesOf(card).get(place.file) ?? [];
  return reaching(entries[countStartingUpTo(entries, place.start) - 1], place)?.statement;
}

export function stepAt(card: Card, place: Place): Step | undefined {
  const statement = statementAt(card, place);
  return statement?.type === 'step' ? statement : undefined;
}

/** The action of a step that a place lies in. */
export function actionAt(statement: Statement, place: Place): Step['actions'][number] | undefined {
  return statement.type === 'step' ? statement.actions.find((action) => holds(action.place, place)) : undefined;
}

/** A statement behind another, or in it, sets the item to the state. */
export function isSetFrom(card: Card, from: Statement, item: Item, state: number): boolean {
  const { order, sets } = orderOf(card);
  const first = order.get(from) ?? 0;
  return sets.some((set) => set.item === item && set.state === state && (order.get(set.step) ?? 0) >= first);
}

/** The statements in the order in which the card has them, with what is done written out. */
const orderOf = oncePerStructure((card) => {
  const statements = [...statementsIn(card.body)];
  const sets = statements.flatMap((step) =>
    step.type === 'step'
      ? step.actions
          .flatMap((action) => (action.type === 'set' || action.type === 'ensure' ? action.changes : []))
          .map(({ item, state }) => ({ step, item, state }))
      : [],
  );
  return { order: new Map<Stage | Statement, number>(statements.map((statement, index) => [statement, index])), sets };
});

/** Who works at a place, and whether the lane round it says so. Where no step stands there, it is the role of the step before. */
export function roleAt(card: Card, place: Place): { readonly role?: Role; readonly byLane: boolean } {
  const step = stepAt(card, place);
  const lane = step && laneRoles(card).get(step);
  if (lane) return { role: lane, byLane: true };
  const role = step?.roles[0] ?? (card.crew.length > 1 ? roleBefore(card, place) : undefined);
  return { ...(role && { role }), byLane: false };
}

function roleBefore(card: Card, place: Place): Role | undefined {
  const before = (entriesOf(card).get(place.file) ?? []).findLast(
    ({ statement }) => statement.place.start <= place.start && statement.type === 'step' && statement.roles.length > 0,
  )?.statement;
  return before?.type === 'step' ? before.roles[0] : card.crew[0];
}

const laneRoles = oncePerStructure(
  (card) => new Map([...stepsIn(card.body)].flatMap(({ step, laneRole }) => (laneRole ? [[step, laneRole]] : []))),
);

/** For each file the statements in it in the order of the text, those outside before those inside. What is written out several times is there once. */
const entriesOf = oncePerStructure((card) => {
  const statements = [...statementsIn(card.body)].filter((one): one is Statement => one.type !== 'stage');
  statements.sort((a, b) => a.place.start - b.place.start || b.place.end - a.place.end);
  const byFile = new Map<string, Entry[]>();
  for (const statement of statements) {
    const entries = getOrInsert(byFile, statement.place.file, () => []);
    const before = entries.at(-1);
    if (before && isSame(before.statement.place, statement.place)) continue;
    const outer = reaching(before, statement.place);
    entries.push(outer ? { statement, outer } : { statement });
  }
  return byFile;
});

/** An entry, or the nearest round it, that goes on to the end of a place which starts in it. */
function reaching(entry: Entry | undefined, { end }: Place): Entry | undefined {
  let round = entry;
  while (round && round.statement.place.end < end) round = round.outer;
  return round;
}

function isSame(a: Place, b: Place): boolean {
  return a.start === b.start && a.end === b.end;
}

function countStartingUpTo(entries: readonly Entry[], offset: number): number {
  let low = 0;
  let high = entries.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((entries[middle] as Entry).statement.place.start <= offset) low = middle + 1;
    else high = middle;
  }
  return low;
}
