/** Where the texts of files that no editor has open come from. The server itself touches no disk. */
import type { ReadCards } from '../../shared/protocol.ts';

export interface Disk {
  /** Every card and settings file in these folders (URIs) and below. */
  readonly list: (folders: readonly string[]) => Promise<ReadCards>;
  /** The text of one file, undefined where there is none. At once, since binding follows `use` lines without a wait. */
  readonly read: (uri: string) => string | undefined;
  readonly figures: Figures;
}

/** The content of pictures, by URI. */
export interface Figures {
  /** Undefined where there is no such file. */
  readonly read: (uri: string) => Uint8Array | undefined;
  /** Makes these known to `read`. Absent where it can read whatever it is asked. */
  readonly fetch?: (uris: readonly string[]) => Promise<void>;
  /** Some picture came, went or changed. */
  readonly forget?: () => void;
}
