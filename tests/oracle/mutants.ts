/** Slips that writers make, as changes of a card's text. */
import { parse } from '../../grammar/parse.ts';
import type { SyntaxNode } from '../../grammar/syntax.ts';

export const SLIPS = [
  'drop a step',
  'swap two steps',
  'shorten a wait',
  'weaken a limit',
  'delete a put-back',
  'move a warning down',
  'change a unit',
] as const;
export type Slip = (typeof SLIPS)[number];

export interface Mutant {
  readonly slip: Slip;
  /** The text that was changed, for the report. */
  readonly at: string;
  readonly text: string;
}

interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

type Tree = SyntaxNode & Readonly<Record<string, unknown>>;

/** `normalStates` are the items' normal states by name, for the put-backs. */
export function mutantsOf(text: string, normalStates: ReadonlyMap<string, string>): readonly Mutant[] {
  const nodes = [...cardNodes(parse(text).file)];
  const said = (node: SyntaxNode) => text.slice(node.start, node.end);
  const mutants: Mutant[] = [];
  const add = (slip: Slip, at: SyntaxNode, ...edits: readonly Edit[]) =>
    mutants.push({ slip, at: said(at).split('\n')[0] as string, text: edited(text, edits) });

  for (const node of nodes) {
    if (node.type === 'step') add('drop a step', node, replaced(node, ''));
    if (node.type === 'wait')
      for (const duration of durationsIn(node)) add('shorten a wait', node, ...halved(duration));
    if (node.type === 'bound') for (const edit of weakened(node)) add('weaken a limit', node, edit);
    if (isAsking(node) && node.limit) add('weaken a limit', node, replaced(node, `read ${said(node.gauge as Tree)}`));
    if (node.type === 'set')
      for (const edit of withoutPutBacks(text, node, normalStates)) add('delete a put-back', node, edit);
    if (node.type === 'unit')
      for (const other of OTHER_UNITS[said(node)] ?? []) add('change a unit', node, replaced(node, other));
  }
  for (const [first, second] of neighbours(nodes)) {
    const swap = [replaced(first, said(second)), replaced(second, said(first))];
    if (first.type === 'step' && second.type === 'step') add('swap two steps', first, ...swap);
    if (first.type === 'admonition' && second.type !== 'admonition') add('move a warning down', first, ...swap);
  }
  return mutants;
}

/** Units that a writer takes one for the other. */
const OTHER_UNITS: Readonly<Record<string, readonly string[]>> = {
  psi: ['kPa', 'bar'],
  kPa: ['psi'],
  bar: ['psi'],
  degC: ['degF'],
  degF: ['degC'],
  s: ['min'],
  min: ['s', 'h'],
  'N.m': ['lbf.ft'],
  'lbf.ft': ['lbf.in'],
  'lbf.in': ['lbf.ft'],
  L: ['gal'],
  'L/min': ['gal/min'],
  mm: ['in'],
};

/** Every node inside the cards and procedures of a file, from the outside in. */
function* cardNodes(file: SyntaxNode): Generator<Tree> {
  for (const child of childrenOf(file as Tree))
    if (child.type === 'card' || child.type === 'procedure') yield* nodesIn(child);
}

function* nodesIn(node: Tree): Generator<Tree> {
  yield node;
  for (const child of childrenOf(node)) yield* nodesIn(child);
}

function childrenOf(node: Tree): readonly Tree[] {
  return Object.values(node)
    .flat()
    .filter(
      (value): value is Tree => typeof value === 'object' && value !== null && 'type' in value && 'start' in value,
    );
}

/** Statements that follow each other in one list. */
function neighbours(nodes: readonly Tree[]): readonly (readonly [Tree, Tree])[] {
  const lists = nodes.flatMap((node) =>
    [node.statements, node.body].filter((list): list is readonly Tree[] => Array.isArray(list)),
  );
  return lists.flatMap((list) => list.slice(1).map((second, index) => [list[index] as Tree, second] as const));
}

function isAsking(node: Tree): boolean {
  return node.type === 'read';
}

function durationsIn(node: Tree): readonly Tree[] {
  return [...nodesIn(node)].filter(({ type }) => type === 'duration');
}

function halved(duration: Tree): readonly Edit[] {
  return numbersIn(duration).map((number) => replaced(number, String(Number(number.text) / 2)));
}

function numbersIn(node: Tree): readonly (Tree & { readonly text: string })[] {
  return [...nodesIn(node)].filter((inner): inner is Tree & { readonly text: string } => inner.type === 'number');
}

/** A lower end a fifth lower, or an upper end a fifth higher. */
function weakened(bound: Tree): readonly Edit[] {
  const numbers = numbersIn(bound);
  const scaled = (index: number, factor: number) => {
    const number = numbers[index];
    return number ? [replaced(number, String(Math.round(Number(number.text) * factor)))] : [];
  };
  switch (bound.form) {
    case 'at least':
    case 'above':
      return scaled(0, 0.8);
    case 'at most':
    case 'below':
      return scaled(0, 1.2);
    case 'range':
      return [...scaled(0, 0.8), ...scaled(1, 1.2)];
    default:
      return [];
  }
}

/** One edit for each change of a `set` that puts an item back in its normal state; what is left must still be a step. */
function withoutPutBacks(text: string, set: Tree, normalStates: ReadonlyMap<string, string>): readonly Edit[] {
  const changes = childrenOf(set).filter(({ type }) => type === 'item-state');
  const nameOf = (part: unknown) => (part as { readonly text?: string } | undefined)?.text ?? '';
  return changes
    .filter((change) => normalStates.get(nameOf(change.item)) === nameOf(change.state))
    .map((dropped) => {
      const left = changes.filter((change) => change !== dropped).map((change) => text.slice(change.start, change.end));
      return replaced(set, left.length > 0 ? `set ${left.join(', ')}` : 'record "Looked at."');
    });
}

function replaced({ start, end }: { readonly start: number; readonly end: number }, text: string): Edit {
  return { start, end, text };
}

function edited(text: string, edits: readonly Edit[]): string {
  const fromTheEnd = [...edits].sort((a, b) => b.start - a.start);
  return fromTheEnd.reduce((result, edit) => result.slice(0, edit.start) + edit.text + result.slice(edit.end), text);
}
