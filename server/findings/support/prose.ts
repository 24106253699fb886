/** The sentences that a reader of the card will act on or be warned by. */
import type { File, SyntaxNode, Text } from '../../../grammar/syntax.ts';
import { isOf, nodesIn } from './tree.ts';

export interface Prose {
  readonly text: Text;
  readonly of: 'step' | 'admonition' | 'question';
}

export function* proseOf(file: File): Iterable<Prose> {
  for (const node of nodesIn(file)) yield* proseAt(node);
}

function* proseAt(node: SyntaxNode): Iterable<Prose> {
  if (isOf(node, 'step')) {
    for (const part of node.parts) if (part.type === 'text') yield { text: part, of: 'step' };
  } else if (isOf(node, 'admonition') || isOf(node, 'hazard')) {
    if (node.text) yield { text: node.text, of: 'admonition' };
  } else if (isOf(node, 'check') || isOf(node, 'if') || isOf(node, 'repeat')) {
    if (node.question) yield { text: node.question, of: 'question' };
  }
}
