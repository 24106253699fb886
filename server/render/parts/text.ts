import type { ElementContent } from 'hast';

/** A text among elements; it is escaped when it is written. */
export function textNode(value: string): ElementContent {
  return { type: 'text', value };
}
