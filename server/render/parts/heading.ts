import type { Element } from 'hast';
import { h } from 'hastscript';

/** A heading of this level; nothing is nested deeper than HTML can say. */
export function heading(level: number, text: string): Element {
  return h(`h${Math.min(level, 6)}`, { dir: 'auto' }, text);
}
