/** The items of a card that have duties, each once, with what the work copy needs to keep their times. */
import type { Duty, Item } from '../../../shared/card.ts';
import type { DutyItem, JobDuty } from '../../../shared/job.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { milliseconds } from '../sentences/times.ts';

export interface DutyTable {
  readonly items: readonly DutyItem[];
  /** The index in `items` of this item's runs in this state; undefined where it has no duty there. */
  readonly indexOf: (item: Item, state: number) => number | undefined;
}

export function dutyTable(): DutyTable {
  const items: DutyItem[] = [];
  const indices = new Map<string, number>();
  const indexOf = (item: Item, state: number): number | undefined => {
    const duties = item.duties.filter((duty) => duty.state === state);
    if (duties.length === 0) return undefined;
    const key = `${item.id} ${item.name} ${state}`;
    return getOrInsert(indices, key, () => items.push({ label: item.label, duties: duties.map(jobDuty) }) - 1);
  };
  return { items, indexOf };
}

function jobDuty(duty: Duty): JobDuty {
  switch (duty.type) {
    case 'longest':
      return { type: 'longest', limit: milliseconds(duty.limit), ...(duty.rest && { rest: milliseconds(duty.rest) }) };
    case 'times-then-rest':
      return { type: 'times-then-rest', times: duty.times, rest: milliseconds(duty.rest) };
    case 'times-in-window':
      return { type: 'times-in-window', times: duty.times, window: milliseconds(duty.window) };
  }
}
