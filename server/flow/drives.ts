/** Which blocks of a card have their hands on an item. */
import { blocksOf } from '../../shared/blocks.ts';
import type { Item, Stage, Statement } from '../../shared/card.ts';

/** Whether a step in there sets the item, makes sure of it or runs it. */
export function drives(body: readonly (Stage | Statement)[], item: Item): boolean {
  return body.some(
    (part) =>
      blocksOf(part).some((block) => drives(block, item)) ||
      (part.type === 'step' &&
        part.actions.some(
          (action) =>
            (action.type === 'run' && action.item === item) ||
            ((action.type === 'set' || action.type === 'ensure') &&
              action.changes.some((change) => change.item === item)),
        )),
  );
}
