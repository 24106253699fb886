/** A sentence as an action, where it is what the equipment would print. */
import type { Item } from '../../shared/card.ts';

/** `Close the left wash valve.` gives `set wash-valve-1 closed`. Articles, capitals and full stops make no difference. */
export function proposeAction(sentence: string, items: readonly Item[]): string | undefined {
  const said = essence(sentence);
  for (const item of items) {
    for (const { name, wording } of item.kind.states) {
      if (wording && essence(wording.replace('{}', item.label)) === said)
        return `${item.kind.seen ? 'check' : 'set'} ${item.name} ${name}`;
    }
  }
  return undefined;
}

function essence(text: string): string {
  const words = text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  return words.filter((word) => word !== 'the' && word !== 'a' && word !== 'an').join(' ');
}
