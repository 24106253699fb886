/** The files that `use` lines lead to. */
import { all } from '../../grammar/navigate.ts';
import type { Span } from '../../shared/text.ts';
import { resolveUse } from '../binding/files.ts';
import type { Snapshot } from '../snapshot.ts';

export interface Link {
  /** Inside the quotes. */
  readonly span: Span;
  readonly file: string;
}

export function links({ file, parsed }: Snapshot): Link[] {
  return all(parsed.file, 'use').flatMap(({ path }) => {
    if (!path || path.value === '') return [];
    return [{ span: { start: path.start + 1, end: path.end - 1 }, file: resolveUse(file, path.value) }];
  });
}
