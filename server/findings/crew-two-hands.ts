import type { Accept, Action, Item, Sign, Step, Together } from '../../shared/card.ts';
import type { Fix } from '../../shared/finding.ts';
import type { FindingSort } from './finding.ts';
import { actionsIn, statementsIn } from './support/card.ts';
import { indentAt, insertAfter, insertBefore, reindented, remove, type TextOf } from './support/edits.ts';

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
  *inCard({ card, textOf }) {
    for (const statement of statementsIn(card.body)) {
      if (statement.type === 'together') yield* sharedItems(statement, textOf);
    }
  },
};

function* sharedItems(together: Together, textOf: TextOf) {
  const driver = new Map<Item, Action>();
  for (const lane of together.lanes) {
    for (const [item, action] of firstDrives(lane.body)) {
      const other = driver.get(item);
      if (!other) driver.set(item, action);
      else {
        yield {
          place: action.place,
          message: `Another lane drives ${item.label} at the same time. Give it to one lane, or do one of the two before or after.`,
          path: [{ place: other.place, text: `the other lane drives ${item.label} here` }],
          fixes: outOfLane(action, lane, together, textOf),
        };
      }
    }
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

/** The first action of a lane on each item that it drives. */
function firstDrives(body: Together['lanes'][number]['body']): Map<Item, Action> {
  const drives = new Map<Item, Action>();
  for (const action of actionsIn(body)) {
    for (const item of drivenBy(action)) if (!drives.has(item)) drives.set(item, action as Action);
  }
  return drives;
}

function drivenBy(action: Action | Sign | Accept): readonly Item[] {
  if (action.type === 'set' || action.type === 'ensure') return action.changes.map((change) => change.item);
  return action.type === 'run' ? [action.item] : [];
}
