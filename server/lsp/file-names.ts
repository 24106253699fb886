/**
 * Editors name files by URIs, each escaped in its own way. Inside, a file has one name, the URI without escapes, which is
 * also what a `use` line leads to. The way back gives the URI that the editor used.
 */
export class FileNames {
  private readonly uris = new Map<string, string>();

  constructor(private readonly isOpen: (uri: string) => boolean) {}

  /** The name of a file inside, from the URI that an editor gives it. The spelling of a document that is open stays until it is closed. */
  fileOf(uri: string): string {
    const file = insideName(uri);
    if (!this.isOpen(this.uriOf(file))) this.uris.set(file, uri);
    return file;
  }

  /** As `fileOf`, from a URI of our own making: an editor's spelling of it stays. */
  fileOfListed(uri: string): string {
    const file = insideName(uri);
    if (!this.uris.has(file)) this.uris.set(file, uri);
    return file;
  }

  uriOf(file: string): string {
    return this.uris.get(file) ?? outsideName(file);
  }
}

/** The scheme under which an editor can open the rulebooks that come with Cardwright. */
const rulebookScheme = 'cardwright-std:/';

function insideName(uri: string): string {
  const file = unescaped(uri);
  return file.startsWith(rulebookScheme) ? `std:${file.slice(rulebookScheme.length).replace(/\.card$/, '')}` : file;
}

function outsideName(file: string): string {
  return file.startsWith('std:') ? `${rulebookScheme}${file.slice('std:'.length)}.card` : escaped(file);
}

/** A `%` that begins no escape stands for itself. */
function unescaped(uri: string): string {
  return uri.replace(/(?:%[0-9a-f]{2})+/gi, (escapes) => {
    try {
      return decodeURIComponent(escapes);
    } catch {
      return escapes;
    }
  });
}

function escaped(file: string): string {
  return encodeURI(file).replaceAll('#', '%23').replaceAll('?', '%3F');
}
