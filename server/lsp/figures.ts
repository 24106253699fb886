/** The pictures that a card holds: they are fetched before it is checked. */
import { all } from '../../grammar/navigate.ts';
import { resolveUse } from '../binding/files.ts';
import type { Snapshot } from '../snapshot.ts';

/** The files of the figures that a text names. */
export function figureFiles({ file, text, parsed }: Snapshot): string[] {
  if (!text.includes('figure')) return [];
  return all(parsed.file, 'figure').flatMap(({ path }) => (path ? [resolveUse(file, path.value)] : []));
}
