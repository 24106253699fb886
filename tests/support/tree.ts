/** Syntax trees without their places, to compare what two texts say. */
import { findUnit } from '../../shared/units.ts';

/** The tree as plain data; units in their first spelling, as the formatter writes them. */
export function shapeOf(tree: unknown): unknown {
  return JSON.parse(
    JSON.stringify(tree, function (this: { type?: string }, key, value: unknown) {
      if (key === 'start' || key === 'end' || key === 'strings' || key === 'braces') return undefined;
      if (key === 'text' && this.type === 'unit') return findUnit(value as string)?.symbol ?? value;
      return value;
    }),
  );
}

/** A tree in one line, as a test shows it: `set{states: [item-state{item: pump, state: running}]}`. */
export function printTree(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(printTree).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  const node = value as Record<string, unknown>;
  switch (node.type) {
    case 'name':
    case 'number':
    case 'unit':
      return String(node.text);
    case 'text':
      return JSON.stringify(node.value);
    case 'quantity':
      return node.unit === undefined ? printTree(node.number) : `${printTree(node.number)} ${printTree(node.unit)}`;
    case 'duration':
      return (node.parts as unknown[]).map(printTree).join(' ');
    default: {
      const told = Object.entries(node).filter(
        ([key, part]) => !['type', 'start', 'end', 'braces'].includes(key) && part !== undefined && part !== false,
      );
      const parts = told.map(([key, part]) => `${key}: ${printTree(part)}`).join(', ');
      return `${node.type ?? ''}{${parts}}`;
    }
  }
}
