import type { Span } from '../../shared/text.ts';
import { placeOf, type Scope } from './names.ts';

/** Tells of parts that can be said once only and are said again: the first one counts. */
export class Once {
  /** Made when first needed, since most parts are no such ones. */
  private first?: Map<string, Span>;

  constructor(private readonly scope: Scope) {}

  /** True for the first part of its sort. */
  take(what: string, span: Span): boolean {
    this.first ??= new Map();
    const first = this.first.get(what);
    if (first === undefined) {
      this.first.set(what, span);
      return true;
    }
    const { scope } = this;
    scope.work.problems.add({ type: 'said-twice', place: placeOf(scope, span), what, first: placeOf(scope, first) });
    return false;
  }
}
