/** Which name in the text stands for what: for going to a definition, renaming, hovering and finding what is never used. */
import type { Name } from '../../grammar/syntax.ts';
import { getOrInsert } from '../../shared/maps.ts';
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

/**
 * Collects what is declared and where it is named. Most who bind ask for no references, so that a use costs no more than three
 * pushes here, and the list is made when it is asked for.
 */
export class ReferenceTable implements References {
  readonly declared: Declared[] = [];
  private readonly names: Name[] = [];
  private readonly files: string[] = [];
  private readonly meanings: Declared[] = [];
  private listed?: readonly Reference[];

  declare(sort: Sort, name: Name, file: string, owner?: Declared): Declared {
    const declared: Declared = { sort, name: name.text, place: { file, start: name.start, end: name.end }, owner };
    this.declared.push(declared);
    return declared;
  }

  use(name: Name, file: string, declared: Declared): void {
    this.names.push(name);
    this.files.push(file);
    this.meanings.push(declared);
  }

  /** What is named at all. */
  used(): ReadonlySet<Declared> {
    return new Set(this.meanings);
  }

  get uses(): readonly Reference[] {
    this.listed ??= this.list();
    return this.listed;
  }

  /** A text that is written out several times has each of its names once for each thing that it stands for: a role, for each card. */
  private list(): readonly Reference[] {
    const namesOf = new Map<Declared, Set<Name>>();
    const listed: Reference[] = [];
    for (const [index, name] of this.names.entries()) {
      const declared = this.meanings[index] as Declared;
      const known = getOrInsert(namesOf, declared, () => new Set());
      if (known.has(name)) continue;
      known.add(name);
      listed.push({ place: { file: this.files[index] as string, start: name.start, end: name.end }, declared });
    }
    return listed;
  }
}

/** A name that is not taken yet: `steps`, `steps-2`, … */
export function freeName(wanted: string, { declared }: References): string {
  const taken = new Set(declared.map(({ name }) => name));
  let name = wanted;
  for (let count = 2; taken.has(name); count++) name = `${wanted}-${count}`;
  return name;
}
