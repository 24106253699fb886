import type * as syntax from '../../grammar/syntax.ts';
import { placeOf, type Scope } from './names.ts';
import type { Declared, Sort } from './references.ts';

/** A second declaration of a name within one declaration: a state, limit, role, label, parameter or value. */
export function reportSecond(scope: Scope, name: syntax.Name, sort: Sort, first: Declared): void {
  const place = placeOf(scope, name);
  scope.work.problems.add({
    type: 'duplicate-name',
    place,
    name: name.text,
    sort,
    first: first.place,
    firstSort: first.sort,
    second: place,
  });
}
