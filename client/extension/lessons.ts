/** The six lessons of the walkthrough. The tool itself looks whether one is done: at the example, at a walk, at an export. */
import type { Counts } from '../../shared/protocol.ts';

export type Lesson = 'mend' | 'step' | 'item' | 'rule' | 'walk' | 'export';

/** What the writer has done beside writing. */
export type Deed = 'walk' | 'export';

/** In their order, each with what to do, as the status bar says it. */
export const lessons: readonly { readonly lesson: Lesson; readonly task: string }[] = [
  { lesson: 'mend', task: 'mend the step with the wavy line' },
  { lesson: 'step', task: 'add a step of your own' },
  { lesson: 'item', task: 'add an item: a padlock for the pump switch' },
  { lesson: 'rule', task: 'write a rule that asks for the padlock, and mend the card' },
  { lesson: 'walk', task: 'take a step out again and walk the path of the finding to its end' },
  { lesson: 'export', task: 'put the step back and export the card' },
];

/**
 * @param before counts when the lesson began; the mend of the lesson before may have added a step
 * @param deed what has just been done beside writing
 */
export function isDone(lesson: Lesson, before: Counts, now: Counts, deed?: Deed): boolean {
  switch (lesson) {
    case 'mend':
      return now.errors === 0;
    case 'step':
      return now.steps > before.steps && now.errors === 0;
    case 'item':
      return now.items > before.items && now.errors === 0;
    case 'rule':
      return now.rules > before.rules && now.errors === 0;
    case 'walk':
      return deed === 'walk';
    case 'export':
      return deed === 'export' && now.errors === 0;
  }
}
