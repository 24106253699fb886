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

/** A name that is not taken yet: `steps`, `steps-2`, … */
export function freeName(wanted: string, { bound }: Snapshot): string {
  const taken = new Set(bound.references.declared.map(({ name }) => name));
  let name = wanted;
  for (let count = 2; taken.has(name); count++) name = `${wanted}-${count}`;
  return name;
}

/** The blanks before the first word of the line. */
export function indentAt(text: string, offset: number): string {
  const start = text.lastIndexOf('\n', offset - 1) + 1;
  return /^[ \t]*/.exec(text.slice(start, offset))?.[0] ?? '';
}

/** A piece of text whose lines began at one indent, with another. */
export function reindented(piece: string, from: string, to: string): string {
  return piece
    .split('\n')
    .map((line, index) => (index === 0 ? line : line.startsWith(from) ? to + line.slice(from.length) : line))
    .join('\n');
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
