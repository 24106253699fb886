import { blocksOf } from '../../shared/blocks.ts';
import type { Card, Stage, Statement, Variant, Which } from '../../shared/card.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { finish, type InParts } from '../../shared/parts.ts';
import { structureOf } from '../../shared/structure.ts';
import { mostAssignments, mostSorts } from './limits.ts';

/** A sort of machine for which the card reads the same. */
export interface Configuration {
  /** `unit 3 to 4 and fit old`; empty where the card is the same for all. */
  readonly machines: string;
  readonly includes: (only: Which | undefined) => boolean;
  /** One machine of the sort: the value of each variant that the card looks at, by the variant's name. */
  readonly values: ReadonlyMap<string, string>;
}

type Assignment = ReadonlyMap<Variant, string>;

/** The sorts of machine on which a card reads differently; not all of them where they are too many. */
export interface Machines {
  readonly sorts: readonly Configuration[];
  readonly areAll: boolean;
}

const known = new WeakMap<object, Machines>();

/** Every combination of variant values that gives a different card, within what the card applies to. */
export function configurations(card: Card): readonly Configuration[] {
  return machinesOf(card).sorts;
}

export function machinesOf(card: Card): Machines {
  return finish(machinesInParts(card));
}

/** As `machinesOf`, some combinations at a time. */
export function* machinesInParts(card: Card): InParts<Machines> {
  const machines = known.get(structureOf(card)) ?? (yield* sortOut(card));
  known.set(structureOf(card), machines);
  return machines;
}

function* sortOut(card: Card): InParts<Machines> {
  const restrictions = collectRestrictions(card.body);
  const variants = [...new Set(restrictions.flatMap((which) => which.parts.map((part) => part.variant)))];
  const looks = new Map(variants.map((variant) => [variant, valuesOf(variant, card.applies, restrictions)]));
  const { all, areAll } = yield* assignments(looks);
  const groups = new Map<string, Assignment[]>();
  for (const assignment of all) {
    const signature = restrictions.map((which) => (satisfies(which, assignment) ? '1' : '0')).join('');
    getOrInsert(groups, signature, () => []).push(assignment);
    yield;
  }
  const sorts = [...groups.values()];
  if (sorts.length > 1) {
    const told: Configuration[] = [];
    for (const alike of sorts.slice(0, mostSorts)) {
      told.push(sortOf(alike, looks));
      yield;
    }
    return { sorts: told, areAll: areAll && sorts.length <= mostSorts };
  }
  const assignment = sorts[0]?.[0];
  const includes = (only: Which | undefined) => !only || !assignment || satisfies(only, assignment);
  return { sorts: [{ machines: '', includes, values: new Map() }], areAll };
}

function sortOf(alike: readonly Assignment[], looks: Looks): Configuration {
  const one = alike[0] as Assignment;
  return {
    machines: describe(alike, looks),
    includes: (only) => !only || satisfies(only, one),
    values: new Map([...one].map(([variant, value]) => [variant.name, value])),
  };
}

function satisfies(which: Which, assignment: Assignment): boolean {
  return which.parts.every((part) => {
    const value = assignment.get(part.variant);
    return value === undefined || part.values.includes(value);
  });
}

function allowedValues(variant: Variant, applies: Which | undefined): readonly string[] {
  const parts = applies?.parts.filter((part) => part.variant === variant) ?? [];
  return variant.values.filter((value) => parts.every((part) => part.values.includes(value)));
}

/** For each variant the values that the card applies to, each with what the restrictions say of it: alike where none tells them apart. */
type Looks = ReadonlyMap<Variant, ReadonlyMap<string, string>>;

function valuesOf(variant: Variant, applies: Which | undefined, restrictions: readonly Which[]): Map<string, string> {
  const parts = restrictions.flatMap((which) => which.parts.filter((part) => part.variant === variant));
  const look = (value: string) => parts.map((part) => (part.values.includes(value) ? '1' : '0')).join('');
  return new Map(allowedValues(variant, applies).map((value) => [value, look(value)]));
}

/** Values that look alike are taken together: one stands for them in each assignment. */
function* assignments(looks: Looks): InParts<{ readonly all: readonly Assignment[]; readonly areAll: boolean }> {
  let all: Map<Variant, string>[] = [new Map()];
  let areAll = true;
  for (const [variant, values] of looks) {
    const chosen = representatives(values);
    areAll &&= all.length * chosen.length <= mostAssignments;
    if (areAll) all = all.flatMap((partial) => chosen.map((value) => new Map(partial).set(variant, value)));
    else for (const partial of all) partial.set(variant, chosen[0] as string);
    yield;
  }
  return { all, areAll };
}

function representatives(values: ReadonlyMap<string, string>): string[] {
  const byLook = new Map<string, string>();
  for (const [value, look] of values) if (!byLook.has(look)) byLook.set(look, value);
  return [...byLook.values()];
}

function describe(alike: readonly Assignment[], looks: Looks): string {
  const parts: string[] = [];
  for (const [variant, values] of looks) {
    const chosen = new Set(alike.map((assignment) => values.get(assignment.get(variant) as string)));
    const included = [...values].flatMap(([value, look]) => (chosen.has(look) ? [value] : []));
    if (included.length < values.size) parts.push(`${variant.name} ${listOfValues(variant, included)}`);
  }
  return parts.join(' and ');
}

/** `3 to 5, 7` for numbers, `old, new` for words. */
export function listOfValues(variant: Variant, values: readonly string[]): string {
  if (!variant.numeric) return values.join(', ');
  const runs: string[][] = [];
  for (const value of values) {
    const last = runs.at(-1);
    if (last && Number(last.at(-1)) + 1 === Number(value)) last.push(value);
    else runs.push([value]);
  }
  return runs.map((run) => (run.length === 1 ? run[0] : `${run[0]} to ${run.at(-1)}`)).join(', ');
}

function collectRestrictions(body: readonly (Stage | Statement)[]): Which[] {
  const found: Which[] = [];
  for (const statement of body) {
    if ('only' in statement && statement.only) found.push(statement.only);
    for (const block of blocksOf(statement)) found.push(...collectRestrictions(block));
  }
  return found;
}
