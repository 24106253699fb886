/** Going from a name to its declaration and to all its uses, and giving it another name. */
import { endOfName } from '../../grammar/scan.ts';
import { contextualWords, joiningWords, reservedWords } from '../../grammar/words.ts';
import type { TextEdit } from '../../shared/finding.ts';
import { getOrInsert } from '../../shared/maps.ts';
import { contains, LineTable, type Place } from '../../shared/text.ts';
import { findUnit } from '../../shared/units.ts';
import type { Declared, References, Sort } from '../binding/references.ts';
import type { Snapshot } from '../snapshot.ts';
import { withEdits } from '../sound-fixes.ts';
import type { Workspace } from '../workspace.ts';

export interface NamedPlace {
  readonly place: Place;
  readonly declared: Declared;
}

/** The name that an offset touches, at its declaration or at a use. */
export function nameAt(references: References, file: string, offset: number): NamedPlace | undefined {
  const touches = (place: Place) => place.file === file && contains(place, offset);
  const use = references.uses.find(({ place }) => touches(place));
  if (use) return use;
  const declared = references.declared.find(({ place }) => touches(place));
  return declared && { place: declared.place, declared };
}

/**
 * Every place where a thing is named, its declaration first. The tables of several files may overlap; each place is given once.
 */
export function placesOf(declared: Declared, tables: Iterable<References>): Place[] {
  const found = new Map([[keyOf(declared.place), declared.place]]);
  for (const { uses } of tables) {
    for (const use of uses) if (isSame(use.declared, declared)) found.set(keyOf(use.place), use.place);
  }
  return [...found.values()];
}

export function isSame(one: Declared, other: Declared): boolean {
  return one === other || (one.sort === other.sort && keyOf(one.place) === keyOf(other.place));
}

function keyOf({ file, start, end }: Place): string {
  return `${start} ${end} ${file}`;
}

// ---------------------------------------------------------------- renaming

export type Renaming = { readonly edits: readonly TextEdit[] } | { readonly refused: string };

/** Why a thing cannot have another name at all; undefined where it can. */
export function renameObstacle(declared: Declared): string | undefined {
  if (declared.place.file.startsWith('std:')) return `"${declared.name}" comes with Cardwright and keeps its name.`;
  if (declared.sort === 'value' && /^\d/.test(declared.name)) return 'A number is no name.';
  return undefined;
}

/** The edits that give a thing another name in all of these files, or why it cannot be called so. */
export function rename(
  declared: Declared,
  newName: string,
  everywhere: readonly Snapshot[],
  workspace: Workspace,
): Renaming {
  const tables = everywhere.map(({ bound }) => bound.references);
  const together = namedTogether(declared, tables);
  const refused = together.obstacle ?? nameObstacle(declared, newName, together, tables);
  if (refused) return { refused };
  const newText = isTitle(declared) ? `"${withoutQuotes(newName)}"` : newName;
  const edits = together.places.map((place) => ({ place, newText }));
  const astray = firstAstray(together, edits, newText, tables, workspace);
  return astray ? { refused: astrayWords(astray, newText, workspace) } : { edits };
}

interface Together {
  readonly places: readonly Place[];
  readonly isOne: (declared: Declared) => boolean;
  readonly sort: Sort;
  readonly obstacle?: string | undefined;
}

/**
 * A thing and those that must be called as it is, with all places that name one of them: a step that several cards do names a role of
 * each, and what a procedure reads on several gauges is a limit of each.
 */
function namedTogether(declared: Declared, tables: readonly References[]): Together {
  const uses = tables
    .flatMap((table) =>
      table.uses.filter(({ declared: { sort, name } }) => sort === declared.sort && name === declared.name),
    )
    .map(({ place, declared: thing }) => ({ place, placeKey: keyOf(place), thing, thingKey: keyOf(thing.place) }));
  const things = new Map([[keyOf(declared.place), declared]]);
  const places = new Map([[keyOf(declared.place), declared.place]]);
  for (let before = 0; before < places.size; ) {
    before = places.size;
    for (const { place, placeKey, thing, thingKey } of uses) {
      if (!things.has(thingKey) && !places.has(placeKey)) continue;
      things.set(thingKey, thing);
      places.set(thingKey, thing.place).set(placeKey, place);
    }
  }
  return {
    sort: declared.sort,
    places: [...places.values()],
    isOne: ({ sort, place }) => sort === declared.sort && things.has(keyOf(place)),
    obstacle: [...things.values()].map(renameObstacle).find((one) => one !== undefined),
  };
}

/** A stage that is gone to by its title. */
function isTitle({ name }: Declared): boolean {
  return name.startsWith('"');
}

function withoutQuotes(title: string): string {
  return title.replace(/^["“„]|["”]$/gu, '');
}

function nameObstacle(
  declared: Declared,
  newName: string,
  { isOne }: Together,
  tables: readonly References[],
): string | undefined {
  if (isTitle(declared)) {
    return /["“”„\\\n]/u.test(withoutQuotes(newName))
      ? `${newName} is no title: leave out its quotation marks.`
      : undefined;
  }
  const kept: readonly string[] = declared.sort === 'state' || declared.sort === 'value' ? joiningWords : reservedWords;
  if (newName === '' || endOfName(newName, 0) !== newName.length) {
    return `"${newName}" is no name: write a letter, then letters, digits and single hyphens between them.`;
  }
  if (kept.includes(newName)) return `"${newName}" is a word of the language and cannot be a name.`;
  const taken = tables
    .flatMap((table) => table.declared.filter(({ name }) => name === newName).map((other) => ({ other, table })))
    .find(
      ({ other, table }) => !isOne(other) && table.declared.some((one) => isOne(one) && shareNames(other, one)),
    )?.other;
  return taken && `There is already a ${taken.sort} "${newName}" here.`;
}

const spaces: Partial<Record<Sort, string>> = {
  item: 'thing',
  gauge: 'thing',
  supply: 'thing',
  procedure: 'callable',
  card: 'callable',
};

/** Whether one name would stand for both. */
function shareNames(one: Declared, other: Declared): boolean {
  const space = ({ sort }: Declared) => spaces[sort] ?? sort;
  const sameOwner = one.owner && other.owner ? isSame(one.owner, other.owner) : one.owner === other.owner;
  return space(one) === space(other) && sameOwner && !isRound(one);
}

/** What stands for one item or value after the other: others beside it may be called the same. */
function isRound({ sort, owner }: Declared): boolean {
  return sort === 'parameter' && owner === undefined;
}

// ---------------------------------------------------------------- what the names stand for then

interface Astray {
  readonly place: Place;
  /** It would stand for another thing; otherwise it would not be read as a name there. */
  readonly isTaken: boolean;
}

function astrayWords({ place: { file, start }, isTaken }: Astray, newText: string, workspace: Workspace): string {
  const line = new LineTable(workspace.textOf(file)).positionAt(start).line + 1;
  const would = isTaken ? 'stand for something else' : 'be read as a word of the language or as a unit';
  return `At ${file.split('/').at(-1)}:${line}, ${newText} would ${would}: choose another name.`;
}

/** In a `for each` a kind comes before an item of the same name, among the nodes of a supply an item. */
const overshadowed: Partial<Record<Sort, Sort>> = { kind: 'item', item: 'node' };

/**
 * The first name that would stand for something else if the edits were made. Only the files that name the thing, or something that it
 * might overshadow, are bound again, and of them only those in which something is called so already: all others read as before.
 */
function firstAstray(
  { isOne, sort }: Together,
  edits: readonly TextEdit[],
  newText: string,
  tables: readonly References[],
  workspace: Workspace,
): Astray | undefined {
  const isBelow = (one: Declared) => one.name === newText && one.sort === overshadowed[sort];
  const below = tables
    .filter((table) => table.declared.some(isBelow))
    .flatMap((table) => named(table).filter(({ declared: one }) => isBelow(one)));
  const after = withEdits(workspace, edits);
  const moved = movedBy(edits);
  for (const file of new Set([...edits, ...below].map(({ place }) => place.file))) {
    const names = namedIn(file, workspace);
    if (!isReadOtherwise(newText) && !names.some(({ declared: one }) => one.name === newText)) continue;
    const meanings = byPlace(namedIn(file, after));
    for (const { place, declared: one } of names) {
      if (!isOne(one) && one.name !== newText) continue;
      const now = meanings.get(keyOf(moved(place))) ?? [];
      const stands = now.some((other) => isSame(other.declared, { ...one, place: moved(one.place) }));
      // What hangs on a guess at a slip is not known any more where another is guessed: the slip is told already.
      if (!stands && (isOne(one) || now.length > 0)) return { place, isTaken: now.length > 0 };
    }
  }
  return undefined;
}

/** As a word of the language or a unit; and that a stage has a title is in no table as long as nothing leads there by it. */
function isReadOtherwise(name: string): boolean {
  const words: readonly string[] = contextualWords;
  return name.startsWith('"') || words.includes(name) || findUnit(name) !== undefined;
}

/** Every name that is read for a file, a declaration as standing for itself. */
function namedIn(file: string, workspace: Workspace): readonly NamedPlace[] {
  const references = workspace.snapshot(file)?.bound.references;
  return references ? named(references) : [];
}

function named({ declared, uses }: References): readonly NamedPlace[] {
  return [...declared.map((one) => ({ place: one.place, declared: one })), ...uses];
}

function byPlace(names: readonly NamedPlace[]): ReadonlyMap<string, readonly NamedPlace[]> {
  const found = new Map<string, NamedPlace[]>();
  for (const one of names) getOrInsert(found, keyOf(one.place), () => []).push(one);
  return found;
}

/** Where a place lies once the edits are made. */
function movedBy(edits: readonly TextEdit[]): (place: Place) => Place {
  const starts = new Map<string, number[]>();
  for (const { place } of edits) getOrInsert(starts, place.file, () => []).push(place.start);
  const [{ place, newText }] = edits as [TextEdit];
  const grows = newText.length - (place.end - place.start);
  return ({ file, start, end }) => {
    const before = (offset: number) => (starts.get(file) ?? []).filter((one) => one < offset).length;
    return { file, start: start + grows * before(start), end: end + grows * before(end) };
  };
}
