/** The pictures that cards hold, where they cannot be read at once: they are fetched before the cards are checked. */
import { all } from '../../grammar/navigate.ts';
import { resolveUse } from '../binding/files.ts';
import type { Snapshot } from '../snapshot.ts';

/** The files of the figures that a text names. */
export function figureFiles({ file, text, parsed }: Snapshot): string[] {
  if (!text.includes('figure')) return [];
  return all(parsed.file, 'figure').flatMap(({ path }) => (path ? [resolveUse(file, path.value)] : []));
}

/** The content of a picture by its URI; null where there is no such file. */
export type FetchFigure = (uri: string) => Promise<Uint8Array | null>;

export class FetchedFigures {
  private readonly known = new Map<string, Uint8Array | undefined>();

  constructor(private readonly fetchOne: FetchFigure) {}

  readonly read = (uri: string): Uint8Array | undefined => this.known.get(uri);

  /** Fetches those that are not known yet. */
  readonly fetch = async (uris: readonly string[]): Promise<void> => {
    const unknown = [...new Set(uris)].filter((uri) => !this.known.has(uri));
    await Promise.all(
      unknown.map(async (uri) => {
        this.known.set(uri, (await this.fetchOne(uri)) ?? undefined);
      }),
    );
  };

  /** They may have changed: each is fetched again when it is next needed. */
  readonly forget = (): void => this.known.clear();
}
