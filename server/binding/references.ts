/** Which name in the text stands for what: for going to a definition, renaming, hovering and finding what is never used. */
import type { Name } from '../../grammar/syntax.ts';
import type { Place } from '../../shared/text.ts';

export type Sort =
  | 'kind'
  | 'state'
  | 'item'
  | 'gauge'
  | 'limit'
  | 'supply'
  | 'node'
  | 'hazard'
  | 'rule'
  | 'variant'
  | 'value'
  | 'procedure'
  | 'parameter'
  | 'card'
  | 'role'
  | 'label';

/** Something that has a name. One object however often it is named. */
export interface Declared {
  readonly sort: Sort;
  readonly name: string;
  /** The place of its name where it is declared. */
  readonly place: Place;
  /** What it belongs to: the kind of a state, the gauge of a limit, the supply of a node, the card of a role or label. */
  readonly owner?: Declared;
}

/** A name in the text that stands for something declared; the declaration itself is none. */
export interface Reference {
  readonly place: Place;
  readonly declared: Declared;
}

export interface References {
  /** In the order of the files and, in each, of declaration. */
  readonly declared: readonly Declared[];
  readonly uses: readonly Reference[];
}

/** Collects what is declared and where it is named. A text that is written out several times has each of its names once. */
export class ReferenceTable {
  private readonly allDeclared: Declared[] = [];
  private readonly byName = new Map<Name, Reference>();

  declare(sort: Sort, name: Name, file: string, owner?: Declared): Declared {
    const declared: Declared = {
      sort,
      name: name.text,
      place: { file, start: name.start, end: name.end },
      ...(owner && { owner }),
    };
    this.allDeclared.push(declared);
    return declared;
  }

  use(name: Name, file: string, declared: Declared): void {
    if (this.byName.has(name)) return;
    this.byName.set(name, { place: { file, start: name.start, end: name.end }, declared });
  }

  all(): References {
    return { declared: this.allDeclared, uses: [...this.byName.values()] };
  }
}
