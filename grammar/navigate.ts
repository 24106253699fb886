/** Ways through a syntax tree, for binding and for the features of an editor. */
import { getOrInsert } from '../shared/maps.ts';
import type * as syntax from './syntax.ts';
import type { SyntaxNode } from './syntax.ts';

/** Every node of the tree. */
export type Node =
  | syntax.File
  | syntax.Declaration
  | syntax.KindState
  | syntax.ItemPart
  | syntax.Duty
  | syntax.HarmNode
  | syntax.GaugePart
  | syntax.Source
  | syntax.Link
  | syntax.Field
  | syntax.CrewMember
  | syntax.ItemState
  | syntax.Stage
  | syntax.Block
  | syntax.Statement
  | syntax.StepPart
  | syntax.Together['lanes'][number]
  | syntax.Choose['ways'][number]
  | syntax.Action
  | syntax.Watch
  | syntax.Condition
  | syntax.Which
  | syntax.WhichValue
  | syntax.BoundNode
  | syntax.SpanNode
  | syntax.DurationNode
  | syntax.QuantityNode
  | syntax.NumberNode
  | syntax.UnitNode
  | syntax.Text
  | syntax.TextWords
  | syntax.TextSlot
  | syntax.Name;

export type NodeOf<Type extends Node['type']> = Extract<Node, { readonly type: Type }>;

/** The nodes directly under a node, in the order of the text. */
export function children(node: SyntaxNode): Node[] {
  const found: Node[] = [];
  collectIn(node, found);
  return isInOrder(found) ? found : found.sort((a, b) => a.start - b.start || a.end - b.end);
}

/** As they mostly are. */
function isInOrder(nodes: readonly Node[]): boolean {
  let before: Node | undefined;
  for (const node of nodes) {
    if (before && (before.start > node.start || (before.start === node.start && before.end > node.end))) return false;
    before = node;
  }
  return true;
}

/** Finds the nodes in the properties of a node; lists and untyped groups such as the rows of a limit are looked through. */
function collectIn(group: object, found: Node[]): void {
  if (Array.isArray(group)) for (const value of group) collect(value, found);
  else for (const name in group) collect(group[name as never], found);
}

function collect(value: unknown, found: Node[]): void {
  if (typeof value !== 'object' || value === null) return;
  if ((value as Partial<Node>).type !== undefined) found.push(value as Node);
  else collectIn(value, found);
}

/** Visits a node and all below it, in the order of the text; `visit` gives false to leave out what is below. */
export function walk(node: SyntaxNode, visit: (node: Node) => unknown): void {
  if (visit(node as Node) === false) return;
  for (const child of children(node)) walk(child, visit);
}

const known = new WeakMap<SyntaxNode, ReadonlyMap<string, readonly Node[]>>();

/** All nodes of one sort, in the order of the text. Many ask this of one tree, which is walked once. */
export function all<Type extends Node['type']>(root: SyntaxNode, type: Type): readonly NodeOf<Type>[] {
  return (sortsIn(root as Node).get(type) ?? []) as readonly NodeOf<Type>[];
}

function sortsIn(root: Node): ReadonlyMap<string, readonly Node[]> {
  return getOrInsert(known, root, () => (root.type === 'file' ? bySortOfFile(root) : bySort(root)));
}

function bySort(root: Node): ReadonlyMap<string, readonly Node[]> {
  const sorts = new Map<string, Node[]>();
  walk(root, (node) => {
    getOrInsert(sorts, node.type, () => []).push(node);
  });
  return sorts;
}

/** From what is known of its declarations, so that none is walked twice. */
function bySortOfFile(file: syntax.File): ReadonlyMap<string, readonly Node[]> {
  const sorts = new Map<string, Node[]>([['file', [file]]]);
  for (const declaration of children(file)) {
    for (const [type, nodes] of sortsIn(declaration)) {
      const list = getOrInsert(sorts, type, () => []);
      for (const node of nodes) list.push(node);
    }
  }
  return sorts;
}

/**
 * The nodes around an offset, from the outermost to the innermost. An offset between two nodes belongs to the one that
 * begins there, or to the one that ends there where none begins.
 */
export function pathAt(root: SyntaxNode, offset: number): Node[] {
  const path: Node[] = [];
  let next: Node | undefined = root as Node;
  while (next !== undefined) {
    path.push(next);
    next = childAt(next, offset);
  }
  return path;
}

function childAt(node: Node, offset: number): Node | undefined {
  const around = children(node).filter((child) => child.start <= offset && offset <= child.end);
  return around.find((child) => offset < child.end) ?? around.at(-1);
}

export function nodeAt(root: SyntaxNode, offset: number): Node {
  return pathAt(root, offset).at(-1) as Node;
}

/** The innermost node of one of these sorts on a path. */
export function innermost<Type extends Node['type']>(
  path: readonly Node[],
  ...types: Type[]
): NodeOf<Type> | undefined {
  return path.findLast((node): node is NodeOf<Type> => (types as string[]).includes(node.type));
}

/** The node above each node of a tree. */
export function parents(root: SyntaxNode): ReadonlyMap<Node, Node> {
  const above = new Map<Node, Node>();
  walk(root, (node) => {
    for (const child of children(node)) above.set(child, node);
  });
  return above;
}

/** What a `go to` names a stage by that has a title alone: the title in quotes, so that it never is another's name. */
export function titleAsName(title: syntax.Text | undefined): syntax.Name | undefined {
  return title && { type: 'name', text: `"${title.value}"`, start: title.start, end: title.end };
}
