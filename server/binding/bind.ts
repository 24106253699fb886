/** From syntax trees to the card model: every name bound, over all files that a file uses. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Bound as BoundOfGauge, Card, Equipment, Gauge, Item, Kind } from '../../shared/card.ts';
import type { Place } from '../../shared/text.ts';
import { type Body, type BodyScope, type Library, makeLibrary, newLedger, scopeOf } from './body.ts';
import { anyCrew, bindCrew } from './crew.ts';
import { declareAll, type Found } from './declare.ts';
import { bindEquipment } from './equipment.ts';
import { bindHead } from './fields.ts';
import { type Files, reach } from './files.ts';
import { openBody } from './labels.ts';
import { lostWords } from './lost-words.ts';
import { bodyOf, type Callable, noNames, placeOf, type Thing, type Work } from './names.ts';
import { type Problem, ProblemList } from './problems.ts';
import { bindBound } from './quantities.ts';
import { refuseRecursion } from './recursion.ts';
import { type References, ReferenceTable } from './references.ts';
import { bindBody } from './statements.ts';
import { titleOf } from './texts.ts';
import { reportUnused } from './unused.ts';

export type { Files } from './files.ts';
export type { Problem } from './problems.ts';
export type { Declared, Reference, References, Sort } from './references.ts';

/** A procedure by itself, with items that stand for any of their kind; what is done with a parameter that is a gauge is left open, and what it does in turn is not written out. */
export interface BoundProcedure {
  readonly name: string;
  readonly title: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly kind: string;
    readonly item?: Item;
    readonly place: Place;
  }[];
  readonly body: Body;
  /** The place of its name. */
  readonly place: Place;
}

export interface Bound {
  readonly file: string;
  /** All reached files, each after those it uses; the shipped rulebooks have names that begin with `std:`. */
  readonly files: readonly string[];
  /** Everything that the reached files declare. */
  readonly equipment: Equipment;
  /** The cards of this file. */
  readonly cards: readonly Card[];
  /** The procedures of this file. */
  readonly procedures: readonly BoundProcedure[];
  readonly references: References;
  /** The kinds that something here is about as a whole: `every valve`. */
  readonly wholeKinds: ReadonlySet<Kind>;
  /** Of this file and of the files it uses; `place` says of which. */
  readonly problems: readonly Problem[];
}

/**
 * Binds the names of a file. Never fails: what has a problem of its own is left out or left open, so that one slip is one problem.
 * `files` gives the parsed text of a path, or undefined where there is none; paths are resolved by `resolveUse`.
 */
export function bind(path: string, files: Files): Bound {
  const problems = new ProblemList();
  const reached = reach(path, files, problems);
  const work = { ...newWork(problems), lost: lostWords(reached.files), incomplete: reached.incomplete };
  const declarations = declareAll(work, reached.files);
  const equipment = bindEquipment(work, declarations);
  const callables = [...declarations.procedures, ...declarations.cards].map(addCallable);
  const library = makeLibrary(work, refuseRecursion(work));
  const own = callables.filter((callable) => callable.file === path);
  const cards = own.flatMap((callable) => (isCard(callable) ? [bindCard(work, library, equipment, callable)] : []));
  const procedures = own.flatMap((callable) => (isProcedure(callable) ? [bindProcedure(work, library, callable)] : []));
  reportUnused(work, path);
  return {
    file: path,
    files: reached.files.map((file) => file.path),
    equipment,
    cards,
    procedures,
    references: work.references,
    wholeKinds: new Set([...work.takenWhole].filter((whole) => 'states' in whole)),
    problems: problems.inOrder(),
  };
}

function newWork(problems: ProblemList): Work {
  return {
    names: noNames(),
    problems,
    references: new ReferenceTable(),
    lost: new Set(),
    incomplete: false,
    takenWhole: new Set(),
    ambiguousKinds: new Set(),
    quantities: new Map(),
    perhapsMeant: new Set(),
  };
}

/** A bound that names nothing, as it reads now; undefined where something is wrong with it. */
export function bindBoundAlone(file: string, node: syntax.BoundNode, gauge: Gauge): BoundOfGauge | undefined {
  const problems = new ProblemList();
  const bound = bindBound({ work: newWork(problems), file, locals: new Map() }, node, gauge);
  return problems.inOrder().length === 0 ? bound : undefined;
}

function addCallable({ scope, node, declared }: Found<syntax.Procedure> | Found<syntax.Card>): Callable {
  const callable: Callable = { declared, file: scope.file, node };
  scope.work.names.callables.set(declared.name, callable);
  return callable;
}

type CallableOf<Node> = Callable & { readonly node: Node };

function isCard(callable: Callable): callable is CallableOf<syntax.Card> {
  return callable.node.type === 'card';
}

function isProcedure(callable: Callable): callable is CallableOf<syntax.Procedure> {
  return callable.node.type === 'procedure';
}

function bindCard(work: Work, library: Library, equipment: Equipment, callable: CallableOf<syntax.Card>): Card {
  const { declared, node } = callable;
  const outer = scopeOf(work, callable);
  const crew = bindCrew(outer, node.fields, declared);
  const labels = openBody(outer, node.body, library.labelsOf(callable));
  const scope: BodyScope = { ...outer, crew, labels, ledger: newLedger(), library, doing: [callable], writesOut: true };
  return {
    name: declared.name,
    title: titleOf(outer, callable),
    equipment,
    ...bindHead(outer, node.fields),
    crew: [...crew.roles.values()].map(({ role }) => role),
    body: bindBody(scope, node.body),
    place: declared.place,
    extent: placeOf(outer, node),
  };
}

function bindProcedure(work: Work, library: Library, callable: CallableOf<syntax.Procedure>): BoundProcedure {
  const { declared, node } = callable;
  const outer = scopeOf(work, callable);
  const parameters = library.parametersOf(callable);
  const locals = new Map(parameters.map((parameter): [string, Thing] => [parameter.declared.name, parameter]));
  const labels = openBody(outer, bodyOf(node), library.labelsOf(callable));
  const crew = anyCrew();
  const scope: BodyScope = {
    ...outer,
    locals,
    crew,
    labels,
    ledger: newLedger(),
    library,
    doing: [callable],
    writesOut: false,
  };
  return {
    name: declared.name,
    title: titleOf(scope, callable),
    parameters: parameters.map((parameter) => ({
      name: parameter.declared.name,
      kind: parameter.item?.kind.name ?? parameter.sort,
      item: parameter.item,
      place: parameter.declared.place,
    })),
    body: bindBody(scope, bodyOf(node)),
    place: declared.place,
  };
}
