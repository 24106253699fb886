/** What a file holds, as a tree: declarations, and in a card its stages and steps. */
import { children, type Node } from '../../grammar/navigate.ts';
import type { Action, Name, Parsed, Step, Text } from '../../grammar/syntax.ts';
import { hiddenShown } from '../../shared/hidden.ts';
import type { Span } from '../../shared/text.ts';

export type OutlineSort =
  | 'kind'
  | 'item'
  | 'gauge'
  | 'limit'
  | 'supply'
  | 'hazard'
  | 'rule'
  | 'variant'
  | 'procedure'
  | 'card'
  | 'stage'
  | 'step'
  | 'block';

export interface OutlineEntry {
  readonly sort: OutlineSort;
  readonly name: string;
  readonly detail: string;
  readonly span: Span;
  /** What is selected when the entry is gone to; inside `span`. */
  readonly nameSpan: Span;
  readonly children: readonly OutlineEntry[];
}

export function outline({ file, text }: Parsed): OutlineEntry[] {
  return file.declarations.flatMap((declaration) => entriesOf(declaration, text));
}

function entriesOf(node: Node, text: string): OutlineEntry[] {
  switch (node.type) {
    case 'item':
      return node.names.map(({ name, label }) =>
        entry(
          'item',
          name,
          label ?? node.label,
          node.names.length > 1 ? { ...name, end: label?.end ?? name.end } : node,
        ),
      );
    case 'kind':
    case 'supply':
    case 'hazard':
    case 'variant':
      return named(node.type, node.name, 'label' in node ? node.label : undefined, node);
    case 'rule':
      return named('rule', node.name, node.title, node);
    case 'gauge': {
      const limits = node.parts.filter((part) => part.type === 'limit');
      return named(
        'gauge',
        node.name,
        node.label,
        node,
        limits.flatMap((limit) => named('limit', limit.name, undefined, limit)),
      );
    }
    case 'procedure':
      return named('procedure', node.name, node.title, node, inside(node, text));
    case 'card':
      return named('card', node.name, node.title, node, inside(node, text));
    case 'stage':
      return [
        titled(
          'stage',
          node.title?.value || 'stage',
          node.name?.text ?? '',
          node,
          node.title ?? node,
          inside(node, text),
        ),
      ];
    case 'step':
      return [
        titled('step', stepTitle(node, text), node.label?.text ?? '', node, node.label ?? node, inside(node, text)),
      ];
    case 'if':
    case 'repeat':
    case 'together':
    case 'choose':
    case 'for-each':
      return [titled('block', firstLine(node, text), '', node, node, inside(node, text))];
    case 'block':
    case 'lane':
    case 'way':
    case 'check':
    case 'read':
    case 'bring':
    case 'wait':
      return inside(node, text);
    default:
      return [];
  }
}

function inside(node: Node, text: string): OutlineEntry[] {
  return children(node).flatMap((child) => entriesOf(child, text));
}

function named(
  sort: OutlineSort,
  name: Name | undefined,
  label: Text | undefined,
  node: Span,
  below: readonly OutlineEntry[] = [],
): OutlineEntry[] {
  return name ? [entry(sort, name, label, node, below)] : [...below];
}

function entry(
  sort: OutlineSort,
  name: Name,
  label: Text | undefined,
  node: Span,
  below: readonly OutlineEntry[] = [],
): OutlineEntry {
  return titled(sort, name.text, label?.value ?? '', node, name, below);
}

function titled(
  sort: OutlineSort,
  name: string,
  detail: string,
  { start, end }: Span,
  nameSpan: Span,
  below: readonly OutlineEntry[] = [],
): OutlineEntry {
  return {
    sort,
    name: hiddenShown(name),
    detail: hiddenShown(detail),
    span: { start, end },
    nameSpan: { start: nameSpan.start, end: nameSpan.end },
    children: below,
  };
}

/** The text of a step, or else its actions as they are written. */
function stepTitle(step: Step, text: string): string {
  const words = step.parts.filter((part) => part.type === 'text').map(({ value }) => value);
  const actions = step.actions.filter(
    (action): action is Action => action.type !== 'broken' && action.type !== 'accept',
  );
  return [...words, ...actions.map((action) => firstLine(action, text))].join(', ') || 'step';
}

function firstLine(node: Span, text: string): string {
  const line = text.slice(node.start, node.end).split(/[\r\n{]/, 1)[0] ?? '';
  return line.replace(/\s+/g, ' ').trim() || '…';
}
