/**
 * How a fix names what it writes of. The text of a procedure or a `for each` serves each call and each round: what is written into it is
 * so in all of them, and goes by the names that it has for things.
 */
import { dequal } from 'dequal';
import { blocksOf } from '../../../shared/blocks.ts';
import type { Card, Gauge, Item, Stage, Statement } from '../../../shared/card.ts';
import { conditionsAskedBy, itemsIn } from '../../../shared/conditions.ts';
import type { Fix } from '../../../shared/finding.ts';
import { getOrInsert } from '../../../shared/maps.ts';
import { oncePerStructure } from '../../../shared/structure.ts';
import type { Place } from '../../../shared/text.ts';
import type { Quantity } from '../../../shared/units.ts';
import { placeKey } from '../../proof/break.ts';
import { changesItem } from './card.ts';

type Named = Item | Gauge | Quantity;

/** A statement as it is written out for one call or round, and what parameters and the names of `for each` stand for in it. */
export interface WrittenOut {
  readonly statement: Statement;
  readonly names: ReadonlyMap<string, Named>;
}

/** A statement with those that are written out from the same text. */
export function everyOne(card: Card, statement: Statement): readonly WrittenOut[] {
  return servedBy(card).get(statement) ?? [{ statement, names: new Map() }];
}

const servedBy = oncePerStructure((card) => {
  const byPlace = new Map<string, WrittenOut[]>();
  const served = new Map<Statement, readonly WrittenOut[]>();
  for (const one of withNames(card.body, new Map())) {
    const same = getOrInsert(byPlace, placeKey(one.statement.place), () => []);
    same.push(one);
    served.set(one.statement, same);
  }
  return served;
});

function* withNames(body: readonly (Stage | Statement)[], names: ReadonlyMap<string, Named>): Generator<WrittenOut> {
  for (const statement of body) {
    if (statement.type !== 'stage') yield { statement, names };
    const inside = namesInside(statement, names);
    for (const [index, block] of blocksOf(statement).entries()) yield* withNames(block, inside(index));
  }
}

/** The names in each of its blocks. */
function namesInside(part: Stage | Statement, names: ReadonlyMap<string, Named>) {
  if (part.type === 'do') {
    const own = new Map(part.arguments.map(({ name, thing }) => [name, thing]));
    return () => own;
  }
  if (part.type !== 'for-each') return () => names;
  const things: readonly Named[] = part.values ?? part.items;
  return (round: number) =>
    new Map([...names, ...things.slice(round, round + 1).map((one) => [part.name, one] as const)]);
}

/**
 * The one name of a thing in a text, for the calls and rounds in which that handles one of the items that are spoken of, or for all where
 * it does in none; undefined where it goes by several names.
 */
export function nameIn(
  thing: Item | Gauge,
  every: readonly WrittenOut[],
  spokenOf: readonly Item[] = [],
): string | undefined {
  const meant = every.filter(({ statement }) => spokenOf.some((item) => handles(statement, item)));
  const [name, ...others] = new Set((meant.length > 0 ? meant : every).map(({ names }) => nameAmong(names, thing)));
  return others.length === 0 ? name : undefined;
}

/** Undefined where something else goes by its name. */
function nameAmong(names: ReadonlyMap<string, Named>, thing: Item | Gauge): string | undefined {
  const [own] = [...names].find(([, named]) => named === thing) ?? [];
  return own ?? (names.has(thing.name) ? undefined : thing.name);
}

function handles(statement: Statement, item: Item): boolean {
  const parts = statement.type === 'step' ? statement.actions : [statement];
  return changesItem(statement, item) || parts.flatMap(conditionsAskedBy).flatMap(itemsIn).includes(item);
}

/** Of what is written out from a text for several calls and rounds: only the fixes that are the same for each of them. */
export function alikeIn<One extends { readonly place: Place }>(
  all: readonly One[],
  fixesOf: (one: One) => readonly Fix[],
): (one: One) => Fix[] {
  const byPlace = new Map<string, One[]>();
  for (const one of all) getOrInsert(byPlace, placeKey(one.place), () => []).push(one);
  return (one) => {
    const others = byPlace.get(placeKey(one.place))?.filter((other) => other !== one) ?? [];
    return fixesOf(one).filter((fix) => others.every((other) => fixesOf(other).some((same) => dequal(same, fix))));
  };
}
