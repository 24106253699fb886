/** Where the files come from that no editor has open. The server itself touches no disk, and waits for none. */
import type { ReadCards, ReadFile } from '../../shared/protocol.ts';

export interface Disk {
  /** Every card and settings file in these folders (URIs) and below. */
  readonly list: (folders: readonly string[]) => Promise<ReadCards>;
  /**
   * The content of one file. Null where there is none, where it is no regular file or too large, and where it lies outside of
   * the folders, whatever links and `..` lead to it.
   */
  readonly read: (params: ReadFile) => Promise<Uint8Array | null>;
}

/** Files that are open at once: a system lets a process open some hundreds only. */
const mostAtOnce = 32;

/** The contents of files by name, each asked for once. */
export class Fetched<Content> {
  private readonly known = new Map<string, Content | undefined>();

  constructor(private readonly fetchOne: (file: string) => Promise<Content | undefined>) {}

  readonly read = (file: string): Content | undefined => this.known.get(file);

  /** Asks for those that are not known yet; gives their names. */
  async fetch(files: readonly string[]): Promise<readonly string[]> {
    const unknown = [...new Set(files)].filter((file) => !this.known.has(file));
    for (let at = 0; at < unknown.length; at += mostAtOnce)
      await Promise.all(
        unknown.slice(at, at + mostAtOnce).map(async (file) => {
          this.known.set(file, await this.fetchOne(file));
        }),
      );
    return unknown;
  }

  /** They may have changed: each is asked for again when it is next needed. */
  forget(): void {
    this.known.clear();
  }
}
