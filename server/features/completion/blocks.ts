/** Which blocks are open at a place: told from the words and braces before it, so that it works in half-written text. */
import type { Token } from '../../../grammar/tokens.ts';

export type BlockSort =
  | 'file'
  | 'kind'
  | 'item'
  | 'gauge'
  | 'rows'
  | 'supply'
  | 'hazard'
  | 'rule'
  | 'card'
  | 'statements'
  | 'step'
  | 'run'
  | 'together'
  | 'choose';

const openedBy: Readonly<Record<string, BlockSort>> = {
  kind: 'kind',
  item: 'item',
  gauge: 'gauge',
  supply: 'supply',
  hazard: 'hazard',
  rule: 'rule',
  card: 'card',
  procedure: 'statements',
  stage: 'statements',
  if: 'statements',
  else: 'statements',
  repeat: 'statements',
  each: 'statements',
  together: 'together',
  choose: 'choose',
  step: 'step',
  run: 'run',
};

/** The sorts of the open blocks, the innermost last; `file` is always the first. */
export function openBlocks(tokens: readonly Token[]): BlockSort[] {
  const open: BlockSort[] = ['file'];
  let head: BlockSort = 'statements';
  for (const { image } of tokens) {
    const inside = open.at(-1) as BlockSort;
    if (image === '{') {
      open.push(head);
      head = 'statements';
    } else if (image === '}') {
      if (open.length > 1) open.pop();
      head = 'statements';
    } else head = headAfter(image, inside, head);
  }
  return open;
}

/** The block that a brace would open after this word. */
function headAfter(image: string, inside: BlockSort, head: BlockSort): BlockSort {
  if (inside === 'gauge' && image === 'limit') return 'rows';
  if (inside === 'together' && image === 'by') return 'statements';
  if (inside === 'choose' && image === 'or') return 'statements';
  // Words of a part of the language may be names elsewhere: a stage stands in a card alone.
  if (image === 'stage' && inside !== 'card') return head;
  return Object.hasOwn(openedBy, image) ? (openedBy[image] as BlockSort) : head;
}
