/** What each name in a file stands for, so that an editor can colour it by its meaning. */
import type { Span } from '../../shared/text.ts';
import type { Sort } from '../binding/bind.ts';
import type { Snapshot } from '../snapshot.ts';

export interface ColouredName extends Span {
  readonly sort: Sort;
  readonly isDeclaration: boolean;
}

/** In the order of the text; no two overlap. */
export function colouredNames({ file, bound }: Snapshot): ColouredName[] {
  const declared = bound.references.declared.map(({ sort, place }) => ({ sort, place, isDeclaration: true }));
  const used = bound.references.uses.map((use) => ({
    sort: use.declared.sort,
    place: use.place,
    isDeclaration: false,
  }));
  const here = [...declared, ...used].filter(({ place }) => place.file === file && place.end > place.start);
  const names = here.map(({ sort, place: { start, end }, isDeclaration }) => ({ sort, isDeclaration, start, end }));
  names.sort((a, b) => a.start - b.start || b.end - a.end);
  return names.filter((name, index) => index === 0 || (names[index - 1] as Span).end <= name.start);
}
