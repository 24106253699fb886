/** Going from a name to its declaration and to all its uses, and giving it another name. */
import { endOfName } from '../../grammar/scan.ts';
import { joiningWords, reservedWords } from '../../grammar/words.ts';
import type { TextEdit } from '../../shared/finding.ts';
import { contains, type Place } from '../../shared/text.ts';
import type { Declared, References, Sort } from '../binding/references.ts';

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

export type Renaming =
  | { readonly edits: readonly (TextEdit & { readonly place: Place })[] }
  | { readonly refused: string };

/** Why a thing cannot have another name at all; undefined where it can. */
export function renameObstacle({ declared }: NamedPlace): string | undefined {
  if (declared.place.file.startsWith('std:')) return `"${declared.name}" comes with Cardwright and keeps its name.`;
  if (declared.sort === 'value' && /^\d/.test(declared.name)) return 'A number is no name.';
  return undefined;
}

/** The edits that give a thing another name in all of these tables, or why it cannot be called so. */
export function rename(declared: Declared, newName: string, tables: readonly References[]): Renaming {
  const refused = nameObstacle(declared, newName, tables);
  if (refused) return { refused };
  const newText = isTitle(declared) ? `"${withoutQuotes(newName)}"` : newName;
  return { edits: placesOf(declared, tables).map((place) => ({ place, newText })) };
}

/** A stage that is gone to by its title. */
function isTitle({ name }: Declared): boolean {
  return name.startsWith('"');
}

function withoutQuotes(title: string): string {
  return title.replace(/^["“„]|["”]$/gu, '');
}

function nameObstacle(declared: Declared, newName: string, tables: readonly References[]): string | undefined {
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
    .filter((table) => table.declared.some((one) => isSame(one, declared)))
    .flatMap((table) => table.declared)
    .find((other) => other.name === newName && !isSame(other, declared) && shareNames(other, declared));
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
  const sameOwner = one.owner === other.owner || (one.owner && other.owner && isSame(one.owner, other.owner));
  return space(one) === space(other) && Boolean(sameOwner);
}
