/** The items whose states a card brings about or looks at, each once, with what the work copy says of each state. */
import type { Condition, Item } from '../../../shared/card.ts';
import type { JobItem, JobItemState } from '../../../shared/job.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { drifts } from '../../proof/meaning/transition-facts.ts';
import type { Context } from '../context.ts';
import { stateSentence } from '../sentences/conditions.ts';
import type { Line } from '../sentences/lines.ts';

export interface ItemTable {
  readonly items: readonly JobItem[];
  readonly indexOf: (item: Item) => number;
  readonly stateOf: (item: Item, state: number) => JobItemState;
  /** What is known of items once a line is done, or found to be so. */
  readonly broughtBy: (line: Line) => { readonly brings?: readonly JobItemState[] };
}

export function itemTable(context: Context): ItemTable {
  const items: JobItem[] = [];
  const indices = new Map<Item, number>();
  const indexOf = (item: Item): number => getOrInsert(indices, item, () => items.push(jobItem(item, context)) - 1);
  const stateOf = (item: Item, state: number): JobItemState => ({ item: indexOf(item), state });
  const broughtBy = ({ source, changes }: Line) => {
    const own = source.type === 'run' ? [source] : source.type === 'check' ? statesIn(source.condition) : changes;
    return own.length === 0 ? {} : { brings: own.map(({ item, state }) => stateOf(item, state)) };
  };
  return { items, indexOf, stateOf, broughtBy };
}

function jobItem(item: Item, context: Context): JobItem {
  const states = item.kind.states.map((_, state) => stateSentence(item, [state], context));
  return { states, ...(drifts(item) && { drifts: true }) };
}

/** What must be so for a condition to hold. */
function statesIn(condition: Condition | undefined): readonly { readonly item: Item; readonly state: number }[] {
  switch (condition?.type) {
    case 'state':
      return [condition];
    case 'and':
      return condition.terms.flatMap(statesIn);
    case 'quantified':
      return statesIn(condition.written);
    default:
      return [];
  }
}
