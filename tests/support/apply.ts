/** Applies the edits of a fix to the text of one file, as an editor does. */
import type { Fix } from '../../shared/finding.ts';

export function applyFix(text: string, { edits }: Fix): string {
  const lastFirst = edits.map((edit, order) => ({ ...edit, order })).sort(laterFirst);
  return lastFirst.reduce(
    (changed, { place, newText }) => changed.slice(0, place.start) + newText + changed.slice(place.end),
    text,
  );
}

/** Insertions at one offset keep their order. */
function laterFirst(
  a: { readonly place: { readonly start: number }; readonly order: number },
  b: { readonly place: { readonly start: number }; readonly order: number },
): number {
  return b.place.start - a.place.start || b.order - a.order;
}
