import type { Element } from 'hast';
import { h } from 'hastscript';

/** A table with a head, which is printed again on each page that the table runs on to. */
export function table(heads: readonly string[], rows: readonly Element[], caption?: string): Element {
  const head = h(
    'thead',
    h(
      'tr',
      heads.map((text) => h('th', { scope: 'col' }, text)),
    ),
  );
  return h('table', [...(caption === undefined ? [] : [h('caption', caption)]), head, h('tbody', [...rows])]);
}
