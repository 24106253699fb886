/** What stands at a place of a card. Each card is walked once, however many findings ask. */
import type { Card, Item, Statement, Step } from '../../../shared/card.ts';
import type { Place } from '../../../shared/text.ts';
import { actionsIn, statementsIn } from './card.ts';

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

/** Some action of the card sets the item to the state. */
export function isSetTo(card: Card, item: Item, state: number): boolean {
  return statesSetIn(card).get(item)?.has(state) ?? false;
}

const statesSetIn = oncePerCard((card) => {
  const states = new Map<Item, Set<number>>();
  for (const action of actionsIn(card.body)) {
    if (action.type !== 'set' && action.type !== 'ensure') continue;
    for (const { item, state } of action.changes) states.set(item, (states.get(item) ?? new Set()).add(state));
  }
  return states;
});

/** For each file the statements in it in the order of the text, those outside before those inside. What is written out several times is there once. */
const entriesOf = oncePerCard((card) => {
  const statements = [...statementsIn(card.body)].filter((one): one is Statement => one.type !== 'stage');
  statements.sort((a, b) => a.place.start - b.place.start || b.place.end - a.place.end);
  const byFile = new Map<string, Entry[]>();
  for (const statement of statements) {
    const entries = byFile.get(statement.place.file) ?? [];
    byFile.set(statement.place.file, entries);
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

function oncePerCard<Value>(make: (card: Card) => Value): (card: Card) => Value {
  const known = new WeakMap<Card, { readonly value: Value }>();
  return (card) => {
    const before = known.get(card) ?? { value: make(card) };
    known.set(card, before);
    return before.value;
  };
}
