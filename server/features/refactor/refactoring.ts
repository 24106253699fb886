/** Changes to a card's text that keep its meaning, and what they share. */
import { walk } from '../../../grammar/navigate.ts';
import type { Name, SyntaxNode } from '../../../grammar/syntax.ts';
import type { TextEdit } from '../../../shared/finding.ts';
import type { Span } from '../../../shared/text.ts';
import type { Snapshot } from '../../snapshot.ts';

export interface Refactoring {
  readonly title: string;
  readonly kind: 'extract' | 'inline' | 'rewrite';
  readonly edits: readonly TextEdit[];
}

export interface RefactorContext {
  readonly snapshot: Snapshot;
  readonly selection: Span;
  /** The newest snapshots of the other files in reach. */
  readonly others: readonly Snapshot[];
}

/** Whether something in here speaks of its surroundings: it would mean something else in another place. */
export function dependsOnItsPlace(nodes: readonly SyntaxNode[]): boolean {
  let depends = false;
  for (const node of nodes) {
    walk(node, (inner) => {
      if (inner.type === 'finish' || inner.type === 'keep' || inner.type === 'accept') depends = true;
    });
  }
  return depends;
}

/** Labels that are declared in some nodes, and those that are gone to from there. */
export function labelsIn(nodes: readonly SyntaxNode[]): { declared: ReadonlySet<string>; used: ReadonlySet<string> } {
  const declared = new Set<string>();
  const used = new Set<string>();
  const add = (to: Set<string>, name: Name | undefined) => name && to.add(name.text);
  for (const node of nodes) {
    walk(node, (inner) => {
      if (inner.type === 'step') add(declared, inner.label);
      if (inner.type === 'go') add(used, inner.label);
    });
  }
  return { declared, used };
}
