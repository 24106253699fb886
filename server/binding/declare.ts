/** First pass: every declared name gets its place in the tables before any of them is looked at, so that order does not matter. */
import type * as syntax from '../../grammar/syntax.ts';
import { type ReachedFile, standardKinds } from './files.ts';
import { placeOf, type Scope, type Work } from './names.ts';
import type { Declared, Sort } from './references.ts';

/** A declaration with the file it stands in and the name it gives. */
export interface Found<Node> {
  readonly scope: Scope;
  readonly node: Node;
  readonly declared: Declared;
}

export interface FoundItem extends Found<syntax.ItemDeclaration> {
  readonly label?: syntax.Text;
}

/** All declarations of the reached files by sort, each file after those it uses; second declarations of a name are left out. */
export interface Declarations {
  readonly kinds: Found<syntax.Kind>[];
  readonly items: FoundItem[];
  readonly gauges: Found<syntax.Gauge>[];
  readonly supplies: Found<syntax.Supply>[];
  readonly hazards: Found<syntax.Hazard>[];
  readonly rules: Found<syntax.Rule>[];
  readonly variants: Found<syntax.Variant>[];
  readonly procedures: Found<syntax.Procedure>[];
  readonly cards: Found<syntax.Card>[];
}

/** Sorts that share a space of names, since they can stand in the same place of the text. */
type Space = 'kind' | 'thing' | 'hazard' | 'rule' | 'variant' | 'callable';

/** The file in which a name is declared, kept to tell where a second one has to be reported. */
interface First {
  readonly declared: Declared;
  readonly isStandard: boolean;
}

export function declareAll(work: Work, files: readonly ReachedFile[]): Declarations {
  const declaring = new Declaring(work, files);
  for (const file of files) declaring.addFile(file);
  return declaring.found;
}

class Declaring {
  readonly found: Declarations = {
    kinds: [],
    items: [],
    gauges: [],
    supplies: [],
    hazards: [],
    rules: [],
    variants: [],
    procedures: [],
    cards: [],
  };
  private readonly spaces: Record<Space, Map<string, First>> = {
    kind: new Map(),
    thing: new Map(),
    hazard: new Map(),
    rule: new Map(),
    variant: new Map(),
    callable: new Map(),
  };
  private readonly byPath: ReadonlyMap<string, ReachedFile>;

  constructor(
    private readonly work: Work,
    files: readonly ReachedFile[],
  ) {
    this.byPath = new Map(files.map((file) => [file.path, file]));
  }

  addFile({ path, parsed }: ReachedFile): void {
    const scope: Scope = { work: this.work, file: path, locals: new Map() };
    for (const node of parsed.file.declarations) this.add(scope, node);
  }

  private add(scope: Scope, node: syntax.Declaration): void {
    const { found } = this;
    switch (node.type) {
      case 'kind':
        this.keep(found.kinds, scope, node, 'kind', 'kind');
        break;
      case 'item':
        this.keepItems(scope, node);
        break;
      case 'gauge':
        this.keep(found.gauges, scope, node, 'thing', 'gauge');
        break;
      case 'supply':
        this.keep(found.supplies, scope, node, 'thing', 'supply');
        break;
      case 'hazard':
        this.keep(found.hazards, scope, node, 'hazard', 'hazard');
        break;
      case 'rule':
        this.keep(found.rules, scope, node, 'rule', 'rule');
        break;
      case 'variant':
        this.keep(found.variants, scope, node, 'variant', 'variant');
        break;
      case 'procedure':
        this.keep(found.procedures, scope, node, 'callable', 'procedure');
        break;
      case 'card':
        this.keep(found.cards, scope, node, 'callable', 'card');
        break;
    }
  }

  private keep<Node extends syntax.Declaration & { readonly name?: syntax.Name }>(
    list: Found<Node>[],
    scope: Scope,
    node: Node,
    space: Space,
    sort: Sort,
  ): void {
    const declared = node.name && this.declare(scope, node.name, space, sort);
    if (declared) list.push({ scope, node, declared });
  }

  private keepItems(scope: Scope, node: syntax.ItemDeclaration): void {
    for (const { name, label } of node.names) {
      const declared = this.declare(scope, name, 'thing', 'item');
      if (declared) this.found.items.push({ scope, node, declared, label });
    }
  }

  /** Undefined where the name is taken. A shipped kind gives way to a file's own without a word. */
  private declare(scope: Scope, name: syntax.Name, space: Space, sort: Sort): Declared | undefined {
    const first = this.spaces[space].get(name.text);
    if (first && !first.isStandard) {
      this.reportSecond(scope, name, sort, first.declared);
      return undefined;
    }
    const declared = this.work.references.declare(sort, name, scope.file);
    this.spaces[space].set(name.text, { declared, isStandard: scope.file === standardKinds });
    return declared;
  }

  private reportSecond(scope: Scope, name: syntax.Name, sort: Sort, first: Declared): void {
    if (sort === 'kind') this.work.ambiguousKinds.add(name.text);
    const second = placeOf(scope, name);
    const place = this.placeOfClash(scope.file, first.place.file) ?? second;
    this.work.problems.add({
      type: 'duplicate-name',
      place,
      name: name.text,
      sort,
      first: first.place,
      firstSort: first.sort,
      second,
    });
  }

  /** Two used files that know nothing of each other clash only here: at the `use` that brought the second. */
  private placeOfClash(file: string, other: string) {
    const through = this.byPath.get(file)?.through;
    return through && file !== other && !this.reaches(file, other) ? through : undefined;
  }

  private reaches(from: string, to: string): boolean {
    const uses = this.byPath.get(from)?.uses ?? [];
    return uses.some((used) => used === to || this.reaches(used, to));
  }
}
