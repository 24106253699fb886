/** All the names of the reached files, and what each stands for. */
import type * as syntax from '../../grammar/syntax.ts';
import type { Gauge, Hazard, Item, Kind, Limit, Supply, Variant } from '../../shared/card.ts';
import type { Place, Span } from '../../shared/text.ts';
import type { Quantity } from '../../shared/units.ts';
import type { LostWords } from './lost-words.ts';
import { nearest, surelyMeant } from './nearest.ts';
import type { Problems } from './problems.ts';
import type { Declared, ReferenceTable, Sort } from './references.ts';

/** A part of the model while it is put together; read-only as soon as binding is over. */
export type Building<Type> = { -readonly [Key in keyof Type]: Type[Key] };

export interface KindEntry {
  readonly declared: Declared;
  readonly kind: Kind;
  readonly states: ReadonlyMap<string, { readonly index: number; readonly declared: Declared }>;
}

/** What may stand at the head of a condition or action: items, gauges and supplies share one space of names. */
export interface Thing {
  readonly sort: 'item' | 'gauge' | 'supply' | 'value' | 'parameter';
  readonly declared: Declared;
  /** Absent where its declaration has a problem of its own, or where it is a parameter that stands for no certain thing yet. */
  readonly item?: Item;
  readonly gauge?: Gauge;
  readonly supply?: Supply;
  readonly value?: Quantity;
  /** For a parameter: where its argument was written. */
  readonly argument?: Place;
  /** Another name was written that can only have meant this one. */
  readonly isGuess?: boolean;
}

export interface LimitEntry {
  readonly declared: Declared;
  readonly limit: Limit;
}

export interface NodeEntry {
  readonly declared: Declared;
  readonly index: number;
}

export interface VariantEntry {
  readonly declared: Declared;
  readonly variant: Variant;
  /** By a value that is a word. */
  readonly words: ReadonlyMap<string, { readonly declared: Declared }>;
}

/** A procedure or a card: what a `do` can name. */
export interface Callable {
  readonly declared: Declared;
  readonly file: string;
  readonly node: syntax.Procedure | syntax.Card;
}

export function bodyOf(node: syntax.Procedure | syntax.Card): readonly (syntax.Stage | syntax.Statement)[] {
  return node.type === 'card' ? node.body : (node.body?.statements ?? []);
}

export interface Names {
  readonly kinds: Map<string, KindEntry>;
  readonly things: Map<string, Thing>;
  readonly hazards: Map<string, { readonly declared: Declared; readonly hazard?: Hazard }>;
  readonly rules: Map<string, Declared>;
  readonly variants: Map<string, VariantEntry>;
  readonly callables: Map<string, Callable>;
  readonly limits: Map<Gauge, Map<string, LimitEntry>>;
  readonly nodes: Map<Supply, Map<string, NodeEntry>>;
  /** Items of a kind in the order of declaration. */
  readonly itemsOf: Map<Kind, Item[]>;
  readonly kindEntries: Map<Kind, KindEntry>;
}

export function noNames(): Names {
  return {
    kinds: new Map(),
    things: new Map(),
    hazards: new Map(),
    rules: new Map(),
    variants: new Map(),
    callables: new Map(),
    limits: new Map(),
    nodes: new Map(),
    itemsOf: new Map(),
    kindEntries: new Map(),
  };
}

/** What all parts of binding share. */
export interface Work {
  readonly names: Names;
  readonly problems: Problems;
  readonly references: ReferenceTable;
  /** Words that stand in text that was not understood. */
  readonly lost: LostWords;
  /** Some used file is missing: any name may come from there. */
  readonly incomplete: boolean;
  /** Kinds of which `any`, `every` or `for each` take all items, and supplies that `any supply` takes: they are so used without being named. */
  readonly takenWhole: Set<Kind | Supply>;
  /** The names of kinds that are declared more than once: which of their states are meant is not known. */
  readonly ambiguousKinds: Set<string>;
  /** By number and symbol of the unit. */
  readonly quantities: Map<string, Quantity>;
  /** Names that an unknown one may have meant; they are not called unused. */
  readonly perhapsMeant: Set<string>;
}

/** Where a piece of syntax stands, and the names that count only there. */
export interface Scope {
  readonly work: Work;
  readonly file: string;
  /** Parameters and the names of `for each`. */
  readonly locals: ReadonlyMap<string, Thing>;
}

export function placeOf(scope: { readonly file: string }, { start, end }: Span): Place {
  return { file: scope.file, start, end };
}

/** `fuel-pump-2` as `fuel pump 2`. */
export function inWords(name: string): string {
  return name.replaceAll('-', ' ');
}

// ---------------------------------------------------------------- look-ups that report

/** Sorts whose names come from any reached file, so that a missing file explains an unknown one. */
const sharedSorts: ReadonlySet<Sort> = new Set([
  'kind',
  'item',
  'gauge',
  'supply',
  'hazard',
  'variant',
  'procedure',
  'card',
]);

/** True where an unknown name follows from a slip that has its own report. */
export function isExcused(work: Work, name: string, sort: Sort): boolean {
  return (work.incomplete && sharedSorts.has(sort)) || work.lost.has(name);
}

/**
 * Reports an unknown name and gives the one that was surely meant, if there is one. Binding goes on with that, so that nothing that
 * follows only from the slip (an item that seems left changed, a step that seems unreachable) is reported as well.
 */
export function reportUnknown(
  scope: Scope,
  name: syntax.Name,
  sort: Sort,
  known: Iterable<string>,
  of?: string,
): string | undefined {
  if (isExcused(scope.work, name.text, sort)) return undefined;
  const names = [...known];
  const near = nearest(name.text, names);
  const place = placeOf(scope, name);
  scope.work.problems.add({
    type: 'unknown-name',
    place,
    name: name.text,
    sort,
    near,
    of,
    among: of === undefined ? [] : names,
  });
  for (const meant of near) scope.work.perhapsMeant.add(meant);
  return surelyMeant(name.text, near);
}

/** Looks a name up and notes that it is used; where it is unknown, reports it and goes on with the name that was surely meant. */
export function findIn<Entry extends { readonly declared: Declared }>(
  scope: Scope,
  entries: ReadonlyMap<string, Entry> | undefined,
  name: syntax.Name,
  sort: Sort,
  of?: string,
): Entry | undefined {
  const entry = entries?.get(name.text);
  if (entry) {
    scope.work.references.use(name, scope.file, entry.declared);
    return entry;
  }
  const meant = reportUnknown(scope, name, sort, entries?.keys() ?? [], of);
  return meant === undefined ? undefined : entries?.get(meant);
}

/** Of an unknown kind nothing is guessed: what its items can be would be a guess too. */
export function findKind(scope: Scope, name: syntax.Name): KindEntry | undefined {
  const entry = scope.work.names.kinds.get(name.text);
  if (entry) scope.work.references.use(name, scope.file, entry.declared);
  else reportUnknown(scope, name, 'kind', scope.work.names.kinds.keys());
  return entry;
}

/** The thing of a name, if it is of the wanted sort or a parameter that may be. */
export function findThing(
  scope: Scope,
  name: syntax.Name,
  wanted: Exclude<Thing['sort'], 'parameter'>,
): Thing | undefined {
  const thing = thingNamed(scope, name.text);
  if (thing === undefined) {
    const meant = reportUnknown(scope, name, wanted, thingsOf(scope, wanted));
    const guess = meant === undefined ? undefined : thingNamed(scope, meant);
    return guess && { ...guess, isGuess: true };
  }
  scope.work.references.use(name, scope.file, thing.declared);
  if (thing.sort === wanted || thing.sort === 'parameter') return thing;
  scope.work.problems.add({
    type: 'wrong-sort',
    place: placeOf(scope, name),
    name: name.text,
    expected: wanted,
    found: thing.sort,
    declared: thing.declared.place,
  });
  return undefined;
}

/** What a name stands for here: parameters and the names of `for each` come before what is declared in a file. */
export function thingNamed(scope: Scope, name: string): Thing | undefined {
  return scope.locals.get(name) ?? scope.work.names.things.get(name);
}

function* thingsOf(scope: Scope, wanted: Thing['sort']): Iterable<string> {
  for (const things of [scope.locals, scope.work.names.things]) {
    for (const [name, thing] of things) if (thing.sort === wanted) yield name;
  }
}

export function findItem(scope: Scope, name: syntax.Name | undefined): Item | undefined {
  return name && findThing(scope, name, 'item')?.item;
}

/**
 * The scope in which to ask something of a thing. What does not fit an argument is reported where it was given, not in the procedure;
 * what does not fit a guess is not reported.
 */
export function scopeFor(scope: Scope, thing: Thing | undefined): Scope {
  if (thing?.isGuess) return withProblems(scope, unheard);
  if (thing?.argument === undefined) return scope;
  const label = (thing.item ?? thing.gauge)?.label ?? thing.declared.name;
  return withProblems(scope, scope.work.problems.redirected(thing.argument, label, thing.declared.name));
}

const unheard: Problems = { add: () => {}, redirected: () => unheard };

function withProblems(scope: Scope, problems: Problems): Scope {
  return { ...scope, work: { ...scope.work, problems } };
}

/** An item and one of its states, as in `set NAME WORD`. */
export function findItemInState(
  scope: Scope,
  itemName: syntax.Name | undefined,
  stateName: syntax.Name | undefined,
): { readonly item: Item; readonly state: number } | undefined {
  const thing = itemName && findThing(scope, itemName, 'item');
  const item = thing?.item;
  const state = item && findState(scopeFor(scope, thing), item.kind, stateName, item.label);
  return item === undefined || state === undefined ? undefined : { item, state };
}

/** The index of a state of this kind. */
export function findState(scope: Scope, kind: Kind, name: syntax.Name | undefined, of: string): number | undefined {
  const states = scope.work.names.kindEntries.get(kind)?.states;
  if (name === undefined || (scope.work.ambiguousKinds.has(kind.name) && !states?.has(name.text))) return undefined;
  return findIn(scope, states, name, 'state', of)?.index;
}
