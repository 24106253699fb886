import { largestText } from '../../../shared/file-sizes.ts';
import { getOrInsert } from '../../../shared/maps.ts';

/** The pictures that a card can hold, known by their name and by how their content begins. */
const sorts = [
  { mime: 'image/png', name: /\.png$/i, begins: (bytes: Uint8Array) => startsWith(bytes, [0x89, 0x50, 0x4e, 0x47]) },
  { mime: 'image/jpeg', name: /\.jpe?g$/i, begins: (bytes: Uint8Array) => startsWith(bytes, [0xff, 0xd8, 0xff]) },
  { mime: 'image/svg+xml', name: /\.svg$/i, begins: (bytes: Uint8Array) => /<svg[\s>]/i.test(opening(bytes)) },
] as const;

export type FigureMime = (typeof sorts)[number]['mime'];

export interface KnownFigure {
  /** What sort of picture it is; undefined where it is none that a card can hold, or not what its name says. */
  readonly mime?: FigureMime;
  /** It is a drawing of so many shapes, or of so many in one another, that a card cannot hold it. */
  readonly isTooLarge: boolean;
}

/** A picture is looked at once, and not at every key. */
const known = new WeakMap<Uint8Array, Map<string, KnownFigure>>();

export function figureOf(path: string, bytes: Uint8Array): KnownFigure {
  const byPath = getOrInsert(known, bytes, () => new Map());
  return getOrInsert(byPath, path, () => lookAt(path, bytes));
}

function lookAt(path: string, bytes: Uint8Array): KnownFigure {
  const mime = sorts.find(({ name, begins }) => name.test(path) && begins(bytes))?.mime;
  if (mime !== 'image/svg+xml') return { ...(mime && { mime }), isTooLarge: false };
  const isTooLarge = bytes.length > largestText || !isWithinBounds(new TextDecoder().decode(bytes));
  return { mime, isTooLarge };
}

const mostShapes = 50_000;
const deepest = 200;
const mostStyledWords = 100;

/** Elements of HTML inside a drawing that are opened again in each paragraph after them. */
const styledWord = /<(?:b|big|code|em|font|i|nobr|s|small|strike|strong|tt|u)[\s/>]/gi;
const closesItself = /^[^"'>]*(?:(?:"[^"]*"|'[^']*')[^"'>]*)*\/>/;

/** A drawing as its reader will take it apart: what is not closed counts as open. */
function isWithinBounds(svg: string): boolean {
  if ((svg.match(styledWord)?.length ?? 0) > mostStyledWords) return false;
  const open: string[] = [];
  let shapes = 0;
  for (let at = svg.indexOf('<'); at >= 0; at = svg.indexOf('<', at + 1)) {
    if (++shapes > mostShapes) return false;
    const next = svg.indexOf('<', at + 1);
    const tag = svg.slice(at + 1, next < 0 ? svg.length : next);
    const [, slash, name = ''] = /^(\/?)([^\s/>]*)/.exec(tag) ?? [];
    if (slash) close(open, name);
    else if (/^[a-z]/i.test(name) && !closesItself.test(tag)) open.push(name);
    if (open.length > deepest) return false;
  }
  return true;
}

function close(open: string[], name: string): void {
  const from = open.lastIndexOf(name);
  if (from >= 0) open.length = from;
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, index) => bytes[index] === byte);
}

/** Enough of a text to hold what may stand before the picture: a declaration, comments. */
function opening(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes.subarray(0, 4096));
}
