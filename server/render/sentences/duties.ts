/** How long and how often something may run, in words. */
import type { Duty, Item } from '../../../shared/card.ts';
import type { FixedWords } from '../language/words.ts';
import { ended } from './labels.ts';
import { durationText } from './times.ts';

export function dutyNotes(item: Item, state: number, words: FixedWords): readonly string[] {
  return item.duties.filter((duty) => duty.state === state).map((duty) => ended(dutyText(duty, words)));
}

export function dutyText(duty: Duty, words: FixedWords): string {
  const { step } = words;
  switch (duty.type) {
    case 'longest': {
      const limit = step.noLongerThan(durationText(duty.limit, words));
      return duty.rest ? `${limit}, ${step.restAfter(durationText(duty.rest, words))}` : limit;
    }
    case 'times-then-rest':
      return step.timesThenRest(duty.times, durationText(duty.rest, words));
    case 'times-in-window':
      return step.timesInWindow(duty.times, durationText(duty.window, words));
  }
}
