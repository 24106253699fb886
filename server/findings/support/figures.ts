/** The pictures that a card can hold, known by their name and by how their content begins. */
const sorts = [
  { mime: 'image/png', name: /\.png$/i, begins: (bytes: Uint8Array) => startsWith(bytes, [0x89, 0x50, 0x4e, 0x47]) },
  { mime: 'image/jpeg', name: /\.jpe?g$/i, begins: (bytes: Uint8Array) => startsWith(bytes, [0xff, 0xd8, 0xff]) },
  { mime: 'image/svg+xml', name: /\.svg$/i, begins: (bytes: Uint8Array) => /<svg[\s>]/i.test(opening(bytes)) },
] as const;

export type FigureMime = (typeof sorts)[number]['mime'];

/** What sort of picture a file is; undefined where it is none that a card can hold, or not what its name says. */
export function figureMime(path: string, bytes: Uint8Array): FigureMime | undefined {
  return sorts.find(({ name, begins }) => name.test(path) && begins(bytes))?.mime;
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, index) => bytes[index] === byte);
}

/** Enough of a text to hold what may stand before the picture: a declaration, comments. */
function opening(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes.subarray(0, 4096));
}
