/** What the findings of the rulebook for lockouts share: the locks of a card, and an example that is whole but for its head. */
import type { Card } from '../../../shared/card.ts';
import { type HandledItem, handledItems } from './hands.ts';

/** Each lock that is put on an energy isolator, in the order of the card. */
export function* locksPutOn(card: Card): Generator<HandledItem> {
  for (const handled of handledItems(card, 'std:lockout')) {
    if (handled.kind === 'energy-isolator' && handled.becomes === 'locked') yield handled;
  }
}

export const saw = `use "std:lockout"
item saw     : lockout-machine "the saw" normally running
item switch-1 : energy-isolator "the switch of the saw" normally on`;

/** @param found a code that is found where the lock is put on. */
export function sawCard(head: string, found?: string): string {
  const mark = found ? `\n  //                     ^^^^^^^^^^^^^^^ ${found}` : '';
  return `card saw-blade "Saw blade" {
  ${head}
  step set lockout-preparation done
  step set saw shut-down
  step set switch-1 off, switch-1 locked${mark}
  step set everybody-clear done
  step set switch-1 unlocked
  step set lockout-notice done
  step set switch-1 on, saw running
}`;
}
