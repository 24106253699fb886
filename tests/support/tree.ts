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
