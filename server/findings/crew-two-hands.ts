import { blocksOf } from '../../shared/blocks.ts';
import type { Accept, Action, Card, If, Item, Sign, Stage, Statement, Step, Together } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import type { FindingSort, Found } from './finding.ts';
import { neverTaken } from './support/branches.ts';
import { type Has, statementsIn } from './support/card.ts';
import { indentAt, insertAfter, insertBefore, reindented, remove, type TextOf } from './support/edits.ts';
import { foundOnMachines } from './support/machines.ts';

export const crewTwoHands: FindingSort = {
  code: 'crew.two-hands',
  level: 'error',
  title: 'Two lanes drive one item at the same time',
  help: {
    what: 'An item is set or run in one lane of a together and in another lane too.',
    why: 'Whose hand comes last is chance, and neither sees what the other did.',
    whatToDo: 'Give the item to one lane, or move one of the actions before or after the together.',
  },
  sources: [],
  examples: [
    {
      given: `kind valve { closed "Close {}", open "Open {}" }
item drain : valve "the drain valve"`,
      bad: `card wash "Wash" {
  number "1" revision "A" crew cockpit "Cockpit", ground "Ground"
  together {
    by cockpit { step set drain open }
    by ground { step set drain closed }
    //               ^^^^^^^^^^^^^^^^ crew.two-hands
  }
}`,
      good: `card wash "Wash" {
  number "1" revision "A" crew cockpit "Cockpit", ground "Ground"
  together {
    by cockpit { step "Look at the gauge." }
    by ground { step set drain open step set drain closed }
  }
}`,
    },
  ],
  inCard({ card, proof, textOf }) {
    const never: ReadonlySet<Stage | Statement> = neverTaken(proof.branches);
    return foundOnMachines(card, (has) => twoHands(card, (part) => has(part) && !never.has(part), textOf));
  },
};

function* twoHands(card: Card, has: Has, textOf: TextOf): Generator<Found> {
  for (const statement of statementsIn(card.body, has)) {
    if (statement.type === 'together') yield* sharedItems(statement, has, textOf);
  }
}

function* sharedItems(together: Together, has: Has, textOf: TextOf): Generator<Found> {
  const drives = together.lanes.map((lane) => [...drivesIn(lane.body, has)]);
  const driven = new Set(drives.flat().map(({ item }) => item));
  const before = new Map<Item, Drive[]>();
  for (const [index, lane] of together.lanes.entries()) {
    const told = new Set<Item>();
    for (const drive of drives[index] ?? []) {
      const { item, action } = drive;
      const other = before.get(item)?.find((one) => !isElsewhere(one, drive, driven));
      if (!other || told.has(item)) continue;
      told.add(item);
      yield {
        place: action.place,
        message: `Another lane drives ${item.label} at the same time. Give it to one lane, or do one of the two before or after.`,
        path: [{ place: other.action.place, text: `the other lane drives ${item.label} here` }],
        fixes: outOfLane(action, lane, together, textOf),
      };
    }
    for (const drive of drives[index] ?? []) getOrInsert(before, drive.item, () => []).push(drive);
  }
}

/** Where the step stands in its lane alone, and not in a loop or branch of it. */
function outOfLane(action: Action, lane: Together['lanes'][number], together: Together, textOf: TextOf): Fix[] {
  const step = lane.body.find((one): one is Step => one.type === 'step' && one.actions.includes(action));
  if (!step || lane.body.length === 1) return [];
  const written = outside(step, lane, together, textOf);
  const gone = remove(step.place, textOf);
  return [
    { title: 'Do this step before both lanes', edits: [insertBefore(together.place, written, textOf), gone] },
    { title: 'Do this step after both lanes', edits: [gone, insertAfter(together.place, written, textOf)] },
  ];
}

/** The step as it reads outside: who does it stands in its head. */
function outside(
  { place, roles }: Step,
  { role }: Together['lanes'][number],
  together: Together,
  textOf: TextOf,
): string {
  const text = textOf(place.file);
  const written = reindented(
    text.slice(place.start, place.end),
    indentAt(text, place.start),
    indentAt(text, together.place.start),
  );
  return role && roles.length === 0 ? written.replace(/^step/u, `step by ${role.name}`) : written;
}

/** What a branch round a step asks of an item, and in which of its states the branch is taken. */
interface Given {
  readonly item: Item;
  readonly states: readonly number[];
}

interface Drive {
  readonly item: Item;
  readonly action: Action;
  readonly given: readonly Given[];
}

function* drivesIn(body: readonly (Stage | Statement)[], has: Has, given: readonly Given[] = []): Generator<Drive> {
  for (const part of body.filter(has)) {
    if (part.type === 'step') {
      for (const action of part.actions)
        for (const item of drivenBy(action)) yield { item, action: action as Action, given };
    } else if (part.type === 'if') {
      yield* drivesIn(part.body, has, [...given, ...givenIn(part, true)]);
      yield* drivesIn(part.otherwise ?? [], has, [...given, ...givenIn(part, false)]);
    } else for (const block of blocksOf(part)) yield* drivesIn(block, has, given);
  }
}

function givenIn({ condition }: If, holds: boolean): readonly Given[] {
  if (condition?.type !== 'state' || condition.lasting) return [];
  const { item, state } = condition;
  const states = item.kind.states.map((_, index) => index);
  return [{ item, states: states.filter((one) => (one === state) === holds) }];
}

/** Their branches ask for different states of an item that stays as it is meanwhile. */
function isElsewhere(one: Drive, other: Drive, driven: ReadonlySet<Item>): boolean {
  const stays = (item: Item) => !driven.has(item) && !item.kind.seen && item.may.length === 0;
  return one.given.some(
    ({ item, states }) =>
      stays(item) &&
      other.given.some((given) => given.item === item && !given.states.some((state) => states.includes(state))),
  );
}

function drivenBy(action: Action | Sign | Accept): readonly Item[] {
  if (action.type === 'set' || action.type === 'ensure') return action.changes.map((change) => change.item);
  return action.type === 'run' ? [action.item] : [];
}
