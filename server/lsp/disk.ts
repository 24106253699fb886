/** Where the texts of files that no editor has open come from. The server itself touches no disk. */
import type { ReadCards } from '../../shared/protocol.ts';

export interface Disk {
  /** Every card and settings file in these folders (URIs) and below. */
  readonly list: (folders: readonly string[]) => Promise<ReadCards>;
  /** The text of one file, undefined where there is none. At once, since binding follows `use` lines without a wait. */
  readonly read: (uri: string) => string | undefined;
  /** As `read`, for figures. Absent where figures cannot be read at once. */
  readonly readBytes?: (uri: string) => Uint8Array | undefined;
}
